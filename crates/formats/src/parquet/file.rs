//! The file: a page for each column, packed with gzip, and the footer that says where each is.

use super::column::Column;
use super::thrift::{Value, structure};
use crate::packed::gzip;

const MARK: &[u8; 4] = b"PAR1";
/// PLAIN and RLE.
const ENCODINGS: [i64; 2] = [0, 3];
const GZIP: i64 = 2;

type Fields = Vec<(i16, Value)>;

/// Writes the columns as one group of rows.
pub(super) fn write(columns: &[Column], rows: usize, about: &[(&str, String)], program: &str) -> Vec<u8> {
    let mut out = MARK.to_vec();
    let mut chunks = Vec::new();
    let rows = rows as i64;
    let mut bytes = 0;
    for column in columns {
        let at = out.len();
        let page = column.page();
        let packed = gzip(&page);
        let head = head([page.len(), packed.len()], rows);
        bytes += (head.len() + page.len()) as i64;
        out.extend(&head);
        out.extend(&packed);
        chunks.push(chunk(column, rows, at, [head.len() + page.len(), out.len() - at]));
    }
    let group: Fields = vec![(1, Value::Structs(chunks)), (2, Value::Long(bytes)), (3, Value::Long(rows))];
    let footer = structure(&[
        (1, Value::Int(1)),
        (2, Value::Structs(schema(columns))),
        (3, Value::Long(rows)),
        (4, Value::Structs(vec![group])),
        (5, Value::Structs(about.iter().map(pair).collect())),
        (6, Value::Text(program.to_owned())),
    ]);
    let long = u32::try_from(footer.len()).unwrap_or(u32::MAX);
    out.extend(footer);
    out.extend(long.to_le_bytes());
    out.extend(MARK);
    out
}

/// The head of a page of data.
fn head([whole, packed]: [usize; 2], rows: i64) -> Vec<u8> {
    let page: Fields =
        vec![(1, Value::Int(rows)), (2, Value::Int(0)), (3, Value::Int(3)), (4, Value::Int(3))];
    structure(&[
        (1, Value::Int(0)),
        (2, Value::Int(whole as i64)),
        (3, Value::Int(packed as i64)),
        (5, Value::Struct(page)),
    ])
}

fn chunk(column: &Column, rows: i64, at: usize, [whole, packed]: [usize; 2]) -> Fields {
    let about: Fields = vec![
        (1, Value::Int(column.data.physical())),
        (2, Value::Ints(ENCODINGS.to_vec())),
        (3, Value::Texts(vec![column.name.to_owned()])),
        (4, Value::Int(GZIP)),
        (5, Value::Long(rows)),
        (6, Value::Long(whole as i64)),
        (7, Value::Long(packed as i64)),
        (9, Value::Long(at as i64)),
    ];
    vec![(2, Value::Long(at as i64)), (3, Value::Struct(about))]
}

fn schema(columns: &[Column]) -> Vec<Fields> {
    let root: Fields = vec![(4, Value::Text("entries".to_owned())), (5, Value::Int(columns.len() as i64))];
    let leaf = |column: &Column| {
        let mut fields: Fields = vec![
            (1, Value::Int(column.data.physical())),
            (3, Value::Int(i64::from(column.optional))),
            (4, Value::Text(column.name.to_owned())),
        ];
        fields.extend(column.data.meaning().map(|meaning| (6, Value::Int(meaning))));
        fields
    };
    [root].into_iter().chain(columns.iter().map(leaf)).collect()
}

fn pair((key, value): &(&str, String)) -> Fields {
    vec![(1, Value::Text((*key).to_owned())), (2, Value::Text(value.clone()))]
}
