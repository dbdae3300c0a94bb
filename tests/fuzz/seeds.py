#!/usr/bin/env python3
"""First inputs and dictionaries of the fuzz targets, made from the fixtures. Standard library only.

    python3 tests/fuzz/seeds.py FOLDER
"""
import csv
import glob
import os
import re
import sys
import zipfile

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
LARGEST = 64 * 1024


def files(*endings):
    for top in ("fixtures", "scenarios"):
        for folder, _, names in sorted(os.walk(os.path.join(ROOT, top))):
            for name in sorted(names):
                path = os.path.join(folder, name)
                if name.endswith(endings) and os.path.getsize(path) <= LARGEST:
                    with open(path, "rb") as file:
                        yield name, file.read()


class Corpus:
    """One target's folder of inputs."""

    def __init__(self, folder, target):
        self.folder = os.path.join(folder, target)
        os.makedirs(self.folder, exist_ok=True)
        self.count = 0

    def add(self, data):
        self.count += 1
        with open(os.path.join(self.folder, f"seed-{self.count:05}"), "wb") as file:
            file.write(data)


def dictionary(folder, target, words):
    with open(os.path.join(folder, f"{target}.dict"), "w", encoding="ascii") as file:
        for raw in sorted({word.encode() if isinstance(word, str) else word for word in words}):
            if 0 < len(raw) <= 40:
                file.write('"' + "".join(f"\\x{byte:02x}" for byte in raw) + '"\n')


def source_words(*paths):
    """Short texts that stand between quotation marks in our own sources, and in what is inside them: units, headings, keys."""
    for path in paths:
        whole = os.path.join(ROOT, "src", path)
        inside = glob.glob(os.path.join(whole.removesuffix(".rs"), "**", "*.rs"), recursive=True)
        for one in [whole, *sorted(inside)]:
            with open(one, encoding="utf-8") as file:
                yield from re.findall(r'"([^"\\\n]{1,30})"', file.read())


def parts(path_or_bytes):
    """A workbook as the target `workbook_parts` takes it."""
    with zipfile.ZipFile(path_or_bytes) as archive:
        out = b""
        for name in archive.namelist():
            if not name.endswith((".png", "/")):
                out += b"\n--part-- " + name.encode() + b"\n" + archive.read(name)
        return out


def main(folder):
    lists = list(files(".csv", ".tsv", ".txt", ".rdb"))
    corpus = Corpus(folder, "text_list")
    for _, data in list(files(".csv", ".tsv", ".txt", ".rdb", ".gz")):
        if len(data) <= 8192:
            corpus.add(data)

    cells, headings = set(), set()
    for name, data in lists:
        if "published" in name or len(data) > 20_000:
            continue
        text = data.decode("utf-8", "replace")
        for at, row in enumerate(csv.reader(text.splitlines())):
            (headings if at == 0 else cells).update(cell.strip()[:60] for cell in row)
    corpus = Corpus(folder, "cell")
    for at, cell in enumerate(sorted(cells)[:3000]):
        # Each cell as a length, and as one of the other fields.
        for first in (7, at % 40):
            corpus.add(bytes([first, at % 256, at // 7 % 256]) + cell.encode())
    corpus = Corpus(folder, "heading")
    for at, heading in enumerate(sorted(headings)):
        corpus.add(bytes([at % 256]) + heading.encode())

    corpus = Corpus(folder, "scenario")
    for _, data in files(".toml"):
        corpus.add(data)

    corpus = Corpus(folder, "parquet")
    for _, data in files(".parquet"):
        corpus.add(data)

    whole, inside = Corpus(folder, "workbook"), Corpus(folder, "workbook_parts")
    for name, data in files(".xlsx", ".ods", ".xls", ".xlsb"):
        whole.add(data)
        try:
            with open(os.path.join(folder, "workbook.tmp"), "wb") as file:
                file.write(data)
            kind = name.rsplit(".", 1)[1].encode()
            text = kind + parts(os.path.join(folder, "workbook.tmp"))
        except (zipfile.BadZipFile, OSError):
            continue
        if len(text) <= LARGEST:
            inside.add(text)
    os.remove(os.path.join(folder, "workbook.tmp"))

    corpus = Corpus(folder, "book")
    for name in ("book.txt", "edited.txt"):
        with open(os.path.join(HERE, name), "rb") as file:
            whole_book = file.read()
        corpus.add(whole_book)
        # Each sheet alone, under the title that makes a book of it.
        for sheet in whole_book.split(b"== ")[1:]:
            corpus.add(b"== " + sheet)

    vocabulary = list(source_words("quantity/unit.rs", "quantity/parse/scan.rs", "quantity/parse/number.rs",
                                   "inventory/cell.rs"))
    names = list(source_words("field.rs", "inventory/heading.rs", "inventory/intervals.rs"))
    marks = ['"', '""', "\n", "\r\n", "\r", ",", ";", "\t", "|", "\ufeff", "'", "1/4", "½", "°", "±", "1e308", "-9999",
             "(", ")", "[", "]", "#", "5s\t15s", "\x1f\x8b\x08", b"\xff\xfe", b"\xfe\xff", b"\x00"]
    dictionary(folder, "cell", vocabulary + marks)
    dictionary(folder, "heading", vocabulary + names + marks)
    dictionary(folder, "text_list", vocabulary + names + marks)
    keys = []
    for room in ("scenario", "engine"):
        for name in sorted(os.listdir(os.path.join(ROOT, "src", room))):
            if name.endswith(".rs"):
                keys += source_words(f"{room}/{name}")
    sql = ["AND", "OR", "NOT", "IN (", "LIKE", "BETWEEN", "IS NULL", "CASE WHEN", "THEN", "ELSE", "END", "CAST(", "SUM(",
           "COUNT(*)", "OVER (", "SELECT", "EXISTS", "INTERVAL", "::", "'dug'", "well_type", "total_depth_ft", "DATE '"]
    toml = ["[[", "]]", "[", "]", '"""', "'''", "= {", "inf", "nan", "0x", "1e999", "1979-05-27", "\\u0000", "\n"]
    dictionary(folder, "scenario", keys + names + sql + toml)
    xml = ["<row r=\"1048576\">", "<c r=\"XFD1\">", "t=\"s\"", "t=\"inlineStr\"", "t=\"e\"", "t=\"d\"", "t=\"str\"", "<v>",
           "</v>", "<is><t>", "<f>", "<![CDATA[", "]]>", "<!--", "-->", "<?", "&lt;", "&#x0;", "&bogus;", "xmlns=",
           "<mergeCell ref=\"A1:XFD1048576\"/>", "<dimension ref=\"A1:XFD1048576\"/>", "uniqueCount=", "s=\"99\"",
           "table:number-rows-repeated=\"1048576\"", "table:number-columns-repeated=\"16384\"", "<table:table-row>",
           "</table:table-row>", "<table:table-cell ", "</table:table-cell>", "<table:covered-table-cell/>",
           "<office:annotation>", "<text:s text:c=\"999\"/>", "<text:p>", "</text:p>", "office:value-type=\"string\"",
           "office:date-value=", "office:boolean-value=\"true\"", "calcext:value-type=\"error\"", "table:display=\"false\"",
           "\n--part-- xl/sharedStrings.xml\n", "\n--part-- content.xml\n", "\n--part-- xl/styles.xml\n", "<externalLink",
           "TargetMode=\"External\"", "state=\"hidden\"", "r:id=\"rId1\"", "date1904=\"1\"", "formatCode=\"yyyy\""]
    dictionary(folder, "workbook_parts", xml)
    dictionary(folder, "workbook", xml + ["PK\x03\x04", b"PK\x01\x02", b"PK\x05\x06", b"\xff\xff\xff\xff", b"\xfe\xff\xff\xff"])
    titles = list(source_words("parameter/campaign.rs", "parameter/practice.rs", "parameter/removal.rs", "parameter/product.rs", "book/form.rs"))
    cells = ["\n== ", "\t", "=75*2", "0.3%%", "24 days", "3 ppb", "$5.60", "EUR 18", "1.200", "1,200", "n/a", "tbd", "20 %", "1e999",
             "31 May 2026", "5/6/2026", "yes", "no", "[{ days = 20, at = \"30 C\" }]", "{", "12 US gal", "; ", "(blank)"]
    dictionary(folder, "book", titles + names + cells)
    dictionary(folder, "parquet", ["PAR1", b"\x15", b"\x19", b"\x1c", b"\xff\xff\xff\xff\x0f", b"\x80\x80\x80\x80\x10"])


if __name__ == "__main__":
    main(sys.argv[1])
