//! Structures as Thrift's compact protocol writes them: what heads of pages and the footer are made of.
//!
//! Source: [THRIFT-COMPACT].

/// A value of a field.
pub(super) enum Value {
    Int(i64),
    /// 64 bits; a 32-bit field is another type.
    Long(i64),
    Text(String),
    Struct(Vec<(i16, Value)>),
    Structs(Vec<Vec<(i16, Value)>>),
    Ints(Vec<i64>),
    Texts(Vec<String>),
}

const INT: u8 = 5;
const LONG: u8 = 6;
const BINARY: u8 = 8;
const LIST: u8 = 9;
const STRUCT: u8 = 12;

/// A structure: its fields in the order of their numbers, and a zero.
pub(super) fn structure(fields: &[(i16, Value)]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut before = 0;
    for (number, value) in fields {
        // Every structure of ours has steps of fifteen at most.
        out.push(u8::try_from(number - before).unwrap_or(0) << 4 | kind(value));
        put(&mut out, value);
        before = *number;
    }
    out.push(0);
    out
}

fn kind(value: &Value) -> u8 {
    match value {
        Value::Int(_) => INT,
        Value::Long(_) => LONG,
        Value::Text(_) => BINARY,
        Value::Struct(_) => STRUCT,
        Value::Structs(_) | Value::Ints(_) | Value::Texts(_) => LIST,
    }
}

fn put(out: &mut Vec<u8>, value: &Value) {
    match value {
        Value::Int(number) | Value::Long(number) => varint(out, zigzag(*number)),
        Value::Text(text) => bytes(out, text),
        Value::Struct(fields) => out.extend(structure(fields)),
        Value::Structs(all) => {
            head(out, all.len(), STRUCT);
            all.iter().for_each(|fields| out.extend(structure(fields)));
        }
        Value::Ints(all) => {
            head(out, all.len(), INT);
            all.iter().for_each(|number| varint(out, zigzag(*number)));
        }
        Value::Texts(all) => {
            head(out, all.len(), BINARY);
            all.iter().for_each(|text| bytes(out, text));
        }
    }
}

fn head(out: &mut Vec<u8>, count: usize, kind: u8) {
    match u8::try_from(count) {
        Ok(count) if count < 15 => out.push(count << 4 | kind),
        _ => {
            out.push(0xF0 | kind);
            varint(out, count as u64);
        }
    }
}

fn bytes(out: &mut Vec<u8>, text: &str) {
    varint(out, text.len() as u64);
    out.extend(text.as_bytes());
}

/// Small numbers of either sign as small numbers.
fn zigzag(number: i64) -> u64 {
    (number << 1 ^ number >> 63).cast_unsigned()
}

/// Seven bits a byte, the lowest first.
pub(super) fn varint(out: &mut Vec<u8>, number: u64) {
    let mut rest = number;
    while rest >= 0x80 {
        out.push((rest & 0x7F) as u8 | 0x80);
        rest >>= 7;
    }
    out.push(rest as u8);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_take_as_many_bytes_as_they_need() {
        let written = |number: u64| {
            let mut out = Vec::new();
            varint(&mut out, number);
            out
        };
        assert_eq!((written(0), written(127), written(300)), (vec![0], vec![127], vec![0xAC, 2]));
        assert_eq!([zigzag(0), zigzag(-1), zigzag(1), zigzag(i64::MIN)], [0, 1, 2, u64::MAX]);
    }

    #[test]
    fn a_structure_names_the_step_to_each_field() {
        let fields = [(1, Value::Int(-1)), (4, Value::Text("a".to_owned())), (5, Value::Ints(vec![1, 2]))];
        assert_eq!(structure(&fields), [0x15, 1, 0x38, 1, b'a', 0x19, 0x25, 2, 4, 0]);
    }
}
