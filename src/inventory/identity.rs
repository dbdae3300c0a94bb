//! What tells a visit of a well from every other: a hash of its id and its number.

/// A 128-bit hash of id and visit, the same on every machine.
///
/// Two 64-bit hashes with seeds of their own, each folding the full product of two 64-bit words (as in wyhash, Wang Yi
/// 2019). It is not a defence against somebody who makes collisions on purpose in his own list.
pub fn identity(id: &str, visit: &str) -> [u64; 2] {
    let mut halves = [0x9E37_79B9_7F4A_7C15_u64, 0xD1B5_4A32_D192_ED03];
    let fold = |a: u64, b: u64| {
        let product = u128::from(a) * u128::from(b);
        (product >> 64) as u64 ^ product as u64
    };
    for text in [id, visit] {
        for chunk in text.as_bytes().chunks(8) {
            let mut word = [0; 8];
            word[..chunk.len()].copy_from_slice(chunk);
            let word = u64::from_le_bytes(word);
            halves[0] = fold(halves[0] ^ word, 0xA076_1D64_78BD_642F);
            halves[1] = fold(halves[1] ^ word, 0xE703_7ED1_A0B4_28DB);
        }
        // The length keeps "1" + "11" apart from "11" + "1".
        halves[0] = fold(halves[0] ^ text.len() as u64, 0x8EBC_6AF0_9C88_C6E3);
        halves[1] = fold(halves[1] ^ text.len() as u64, 0x5899_65CC_7537_4CC3);
    }
    halves
}
