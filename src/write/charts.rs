//! Charts of a workbook, told apart without color: by shade, by the dash of a line, by their names.

use rust_xlsxwriter::{
    Chart, ChartErrorBars, ChartErrorBarsType, ChartFont, ChartFormat, ChartLegendPosition, ChartLine,
    ChartLineDashType, ChartRange, ChartSolidFill, ChartType, Worksheet, XlsxError,
};

use super::page::PLAIN_WIDTH;
use crate::document::cell::Layout;
use crate::document::cell_chart::{CellChart, Cells, Drawn};

/// Shades of bars, dark to light, and the dashes of lines.
const SHADES: [u32; 5] = [0x2F_4858, 0x9F_B0B9, 0xC9_8A1B, 0x5B_7F95, 0x6E_4A1E];
const DASHES: [ChartLineDashType; 4] =
    [ChartLineDashType::Solid, ChartLineDashType::Dash, ChartLineDashType::RoundDot, ChartLineDashType::LongDashDot];
const GRID: u32 = 0xD8_DEE2;

/// Puts a sheet's charts in.
pub(super) fn write(worksheet: &mut Worksheet, layout: &Layout) -> Result<(), XlsxError> {
    for chart in &layout.charts {
        let width: f64 = (chart.place.1..chart.place.1 + chart.size.0)
            .map(|column| 7.0 * layout.widths.get(usize::from(column)).copied().unwrap_or(PLAIN_WIDTH) + 5.0)
            .sum();
        let mut made = made(chart);
        made.set_width(width as u32).set_height(chart.size.1 * super::heights::DEFAULT_ROW);
        worksheet.insert_chart(chart.place.0, chart.place.1, &made)?;
    }
    Ok(())
}

/// What stands for the text alternative of a chart until the file is filled: the library takes short ones only.
fn stand_in(chart: &CellChart) -> String {
    let (row, column) = chart.place;
    format!("text of the chart at row {row}, column {column} that draws {}", chart.names.sheet)
}

/// Puts the whole text alternatives of charts into a part of the file that holds drawings.
pub(super) fn with_texts<'a>(drawing: String, charts: impl Iterator<Item = &'a CellChart>) -> String {
    charts.fold(drawing, |drawing, chart| {
        let mut text = String::new();
        super::texts::push_escaped(&mut text, &chart.text);
        drawing
            .replace(&format!("descr=\"{}\"", stand_in(chart)), &format!("descr=\"{}\"", text.replace('"', "&quot;")))
    })
}

fn range(cells: Cells) -> ChartRange {
    ChartRange::new_from_range(cells.sheet, cells.first.0, cells.first.1, cells.last.0, cells.last.1)
}

fn made(chart: &CellChart) -> Chart {
    let font = || ChartFont::new().set_name("Arial").set_size(9).unset_bold().clone();
    let mut made = Chart::new(match chart.drawn {
        Drawn::Bars => ChartType::Bar,
        Drawn::Lines => ChartType::Line,
    });
    made.title().set_name(&chart.title).set_font(ChartFont::new().set_name("Arial").set_size(11).set_bold());
    made.set_alt_text(stand_in(chart));
    for (at, series) in chart.series.iter().enumerate() {
        let shade = SHADES[at % SHADES.len()];
        let added = made.add_series();
        added.set_name(&series.name).set_values(&range(series.values)).set_categories(&range(chart.names));
        let mut line = ChartLine::new();
        line.set_color(shade);
        match chart.drawn {
            Drawn::Bars => {
                added.set_format(ChartFormat::new().set_solid_fill(ChartSolidFill::new().set_color(shade)));
                added.set_gap(60);
            }
            Drawn::Lines => {
                line.set_width(2).set_dash_type(DASHES[at % DASHES.len()]);
                added.set_format(ChartFormat::new().set_line(&line));
            }
        }
        if let Some((below, above)) = series.range {
            let mut bars = ChartErrorBars::new();
            bars.set_type(ChartErrorBarsType::Custom(range(above), range(below)));
            bars.set_format(ChartFormat::new().set_line(ChartLine::new().set_color(0x00_0000).set_width(1)));
            match chart.drawn {
                Drawn::Bars => added.set_x_error_bars(&bars),
                Drawn::Lines => added.set_y_error_bars(&bars),
            };
        }
    }
    let grid = ChartLine::new().set_color(GRID).clone();
    // The axis of names of a bar chart stands upright, and its first name at the bottom unless it is turned.
    let names = if chart.drawn == Drawn::Bars { made.y_axis() } else { made.x_axis() };
    names.set_name(&chart.across.heading()).set_name_font(&font()).set_font(&font());
    if chart.drawn == Drawn::Bars {
        names.set_reverse();
    }
    let figures = if chart.drawn == Drawn::Bars { made.x_axis() } else { made.y_axis() };
    figures.set_name(&chart.upward.heading()).set_name_font(&font()).set_font(&font());
    figures.set_major_gridlines_line(&grid).set_num_format("#,##0");
    if chart.upward.from_zero {
        figures.set_min(0);
    }
    match chart.series.len() {
        1 => made.legend().set_hidden(),
        _ => made.legend().set_position(ChartLegendPosition::Bottom).set_font(&font()),
    };
    made
}
