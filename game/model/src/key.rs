//! Exact keys: a state packed into as few bits as its fields need.
//!
//! A model describes its fields once, in a function over a [`Coder`]. Run with a [`KeyWriter`] it
//! writes the key; run with a [`KeyReader`] it reads a state back. So the two cannot drift apart.

/// The longest key, in bytes: what a length of one byte counts. A machine of 40 slots with all that
/// may be set and go wrong came to 196 in long random runs.
pub const KEY_BYTES_MOST: usize = 255;

/// An exact key. Two keys are equal if and only if all their bits are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Key {
    bytes: [u8; KEY_BYTES_MOST],
    len: usize,
}

impl Key {
    /// The key with these bytes, as [`Key::as_bytes`] gave them. More than [`KEY_BYTES_MOST`]
    /// bytes are a bug of the caller: it stops with an assertion.
    pub fn from_bytes(bytes: &[u8]) -> Key {
        assert!(
            bytes.len() <= KEY_BYTES_MOST,
            "a key is longer than the longest key"
        );
        let mut key = Key {
            bytes: [0; KEY_BYTES_MOST],
            len: bytes.len(),
        };
        key.bytes[..bytes.len()].copy_from_slice(bytes);
        key
    }

    /// The bytes of the key.
    pub fn as_bytes(&self) -> &[u8] {
        &self.bytes[..self.len]
    }
}

/// Visits the fields of a state, one after the other, with the number of bits that each needs.
pub trait Coder {
    /// A field of at most 64 bits. Writing: `value` must fit `bits`, and comes back. Reading: the
    /// field's value comes back, whatever `value` is.
    fn bits(&mut self, value: u64, bits: u32) -> u64;

    /// A field that is true or false.
    #[inline]
    fn flag(&mut self, value: &mut bool) {
        *value = self.bits(u64::from(*value), 1) != 0;
    }

    /// Fields that are true or false, one behind the other. As many calls of [`Coder::flag`] give
    /// the same bits, and take longer.
    #[inline]
    fn flags<const N: usize>(&mut self, values: [&mut bool; N]) {
        let places = values.iter().enumerate();
        let word = places.fold(0, |word, (at, value)| word | u64::from(**value) << at);
        let word = self.bits(word, N as u32);
        for (at, value) in values.into_iter().enumerate() {
            *value = word >> at & 1 != 0;
        }
    }

    /// A field of `bits` bits in a byte.
    #[inline]
    fn byte(&mut self, value: &mut u8, bits: u32) {
        *value = self.bits(u64::from(*value), bits) as u8;
    }

    /// A field of `bits` bits in 16.
    #[inline]
    fn short(&mut self, value: &mut u16, bits: u32) {
        *value = self.bits(u64::from(*value), bits) as u16;
    }

    /// A field of `bits` bits in 32.
    #[inline]
    fn word(&mut self, value: &mut u32, bits: u32) {
        *value = self.bits(u64::from(*value), bits) as u32;
    }

    /// A field of `bits` bits in 64.
    #[inline]
    fn mask(&mut self, value: &mut u64, bits: u32) {
        *value = self.bits(*value, bits);
    }

    /// A signed field of 32 bits.
    #[inline]
    fn signed(&mut self, value: &mut i32) {
        *value = self.bits(u64::from(*value as u32), 32) as u32 as i32;
    }
}

/// Packs fields into a [`Key`].
#[derive(Clone, Debug)]
pub struct KeyWriter {
    /// Words are put there whole, so that the last one may reach beyond the longest key.
    bytes: [u8; KEY_BYTES_MOST + 8],
    len: usize,
    /// Bits that are not among the bytes yet: fewer than 64.
    pending: u64,
    pending_bits: u32,
}

impl Default for KeyWriter {
    fn default() -> KeyWriter {
        KeyWriter {
            bytes: [0; KEY_BYTES_MOST + 8],
            len: 0,
            pending: 0,
            pending_bits: 0,
        }
    }
}

impl KeyWriter {
    /// An empty key.
    pub fn new() -> KeyWriter {
        KeyWriter::default()
    }

    /// Makes it empty again.
    pub fn clear(&mut self) {
        self.len = 0;
        self.pending = 0;
        self.pending_bits = 0;
    }

    /// The key's bytes so far; the last one is filled up with zeros. Call it once, at the end.
    pub fn finish(&mut self) -> &[u8] {
        self.push(self.pending_bits.div_ceil(8) as usize);
        self.pending_bits = 0;
        &self.bytes[..self.len]
    }

    /// Puts so many of the pending bytes behind the others, eight at most.
    #[inline]
    fn push(&mut self, bytes: usize) {
        let end = self.len + bytes;
        assert!(
            end <= KEY_BYTES_MOST,
            "a state needs a longer key than the longest"
        );
        if let Some(place) = self.bytes[self.len..].first_chunk_mut() {
            *place = self.pending.to_le_bytes();
        }
        self.len = end;
    }
}

impl Coder for KeyWriter {
    #[inline(always)]
    fn bits(&mut self, value: u64, bits: u32) -> u64 {
        debug_assert!(
            bits == 64 || value >> bits == 0,
            "{value} does not fit {bits} bits"
        );
        self.pending |= value << self.pending_bits;
        let filled = self.pending_bits + bits;
        if filled < u64::BITS {
            self.pending_bits = filled;
        } else {
            self.push(8);
            let taken = u64::BITS - self.pending_bits;
            self.pending = value.checked_shr(taken).unwrap_or(0);
            self.pending_bits = filled - u64::BITS;
        }
        value
    }
}

/// Reads the fields of a [`Key`] in the order in which they were written.
#[derive(Clone, Debug)]
pub struct KeyReader<'k> {
    key: &'k Key,
    /// The bit at which the next field begins.
    at: usize,
}

impl<'k> KeyReader<'k> {
    /// Reads `key` from its first field on.
    pub fn new(key: &'k Key) -> KeyReader<'k> {
        KeyReader { key, at: 0 }
    }

    /// The eight bytes from this one on. Behind the last one of the key there are zeros.
    #[inline]
    fn window(&self, byte: usize) -> u64 {
        match self.key.bytes[byte.min(KEY_BYTES_MOST)..].first_chunk() {
            Some(bytes) => u64::from_le_bytes(*bytes),
            None => self.last_window(byte),
        }
    }

    #[cold]
    fn last_window(&self, byte: usize) -> u64 {
        let mut word = [0; 8];
        let rest = &self.key.bytes[byte.min(KEY_BYTES_MOST)..];
        word[..rest.len()].copy_from_slice(rest);
        u64::from_le_bytes(word)
    }
}

impl Coder for KeyReader<'_> {
    #[inline]
    fn bits(&mut self, _value: u64, bits: u32) -> u64 {
        let (byte, bit) = (self.at / 8, (self.at % 8) as u32);
        let mut value = self.window(byte) >> bit;
        if bit + bits > u64::BITS {
            value |= self.window(byte + 8) << (u64::BITS - bit);
        }
        self.at += bits as usize;
        value & u64::MAX.checked_shr(u64::BITS - bits).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fields as (value, bits), written and read back.
    fn round(fields: &[(u64, u32)]) -> (usize, Vec<u64>) {
        let mut writer = KeyWriter::new();
        for &(value, bits) in fields {
            writer.bits(value, bits);
        }
        let key = Key::from_bytes(writer.finish());
        let mut reader = KeyReader::new(&key);
        let read = fields
            .iter()
            .map(|&(_, bits)| reader.bits(0, bits))
            .collect();
        (key.as_bytes().len(), read)
    }

    #[test]
    fn what_is_written_is_read_back() {
        let fields = [
            (1, 1),
            (0, 3),
            (u64::MAX, 64),
            (5, 3),
            (0x1234_5678_9abc, 48),
            (0, 0),
            (1, 1),
        ];
        let (len, read) = round(&fields);
        assert_eq!(read, fields.map(|(value, _)| value));
        assert_eq!(len, (1 + 3 + 64 + 3 + 48 + 1_usize).div_ceil(8));
    }

    #[test]
    fn the_last_bits_of_the_longest_key_are_read_back() {
        let fields: Vec<(u64, u32)> = (0..KEY_BYTES_MOST as u64 * 8 / 60)
            .map(|n| (n.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 4, 60))
            .collect();
        let (len, read) = round(&fields);
        assert_eq!(len, KEY_BYTES_MOST);
        assert!(fields.iter().map(|(value, _)| value).eq(&read));
    }

    #[test]
    fn flags_side_by_side_are_the_same_as_one_by_one() {
        for bits in 0..8_u8 {
            let [mut a, mut b, mut c] = [1, 2, 4].map(|bit| bits & bit != 0);
            let (mut together, mut apart) = (KeyWriter::new(), KeyWriter::new());
            together.flags([&mut a, &mut b, &mut c]);
            for flag in [&mut a, &mut b, &mut c] {
                apart.flag(flag);
            }
            let key = Key::from_bytes(together.finish());
            assert_eq!(key.as_bytes(), apart.finish());
            let mut read = [false; 3];
            KeyReader::new(&key).flags(read.each_mut());
            assert_eq!(read, [a, b, c]);
        }
    }

    #[test]
    fn one_bit_makes_another_key() {
        let mut a = KeyWriter::new();
        let mut b = KeyWriter::new();
        a.bits(0b101, 3);
        b.bits(0b100, 3);
        assert_ne!(Key::from_bytes(a.finish()), Key::from_bytes(b.finish()));
    }

    #[test]
    fn a_signed_field_keeps_its_sign() {
        let mut writer = KeyWriter::new();
        let mut place = -15_000;
        writer.signed(&mut place);
        let key = Key::from_bytes(writer.finish());
        let mut back = 0;
        KeyReader::new(&key).signed(&mut back);
        assert_eq!(back, -15_000);
    }
}
