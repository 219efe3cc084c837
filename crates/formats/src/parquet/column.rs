//! Columns as the bytes of a page: which cells are blank, and the values of the others, one after the other.

/// A column.
pub(super) struct Column {
    pub(super) name: &'static str,
    /// A blank is allowed.
    pub(super) optional: bool,
    pub(super) data: Data,
}

/// Its cells.
pub(super) enum Data {
    Texts(Vec<Option<String>>),
    Whole(Vec<Option<i64>>),
    /// Milliseconds since 1970.
    Moments(Vec<Option<i64>>),
}

impl Column {
    /// A column without blanks.
    pub(super) fn needed(name: &'static str, data: Data) -> Self {
        Column { name, optional: false, data }
    }

    /// A column that may have blanks.
    pub(super) fn maybe(name: &'static str, data: Data) -> Self {
        Column { name, optional: true, data }
    }

    /// The page: which cells are there, then their values, PLAIN.
    pub(super) fn page(&self) -> Vec<u8> {
        let there = self.data.there();
        let mut out = if self.optional { levels(&there) } else { Vec::new() };
        match &self.data {
            Data::Texts(texts) => texts.iter().flatten().for_each(|text| {
                out.extend(u32::try_from(text.len()).unwrap_or(u32::MAX).to_le_bytes());
                out.extend(text.as_bytes());
            }),
            Data::Whole(numbers) | Data::Moments(numbers) => {
                numbers.iter().flatten().for_each(|number| out.extend(number.to_le_bytes()));
            }
        }
        out
    }
}

impl Data {
    fn there(&self) -> Vec<bool> {
        match self {
            Data::Texts(texts) => texts.iter().map(Option::is_some).collect(),
            Data::Whole(numbers) | Data::Moments(numbers) => numbers.iter().map(Option::is_some).collect(),
        }
    }

    /// The physical type: 6 is bytes, 2 is 64 bits.
    pub(super) fn physical(&self) -> i64 {
        if matches!(self, Data::Texts(_)) { 6 } else { 2 }
    }

    /// What the bytes mean: 0 is text in UTF-8, 9 milliseconds since 1970.
    pub(super) fn meaning(&self) -> Option<i64> {
        match self {
            Data::Texts(_) => Some(0),
            Data::Whole(_) => None,
            Data::Moments(_) => Some(9),
        }
    }
}

/// Runs of cells that are there and of blanks: length of the whole, then for each run twice its length and a bit.
fn levels(there: &[bool]) -> Vec<u8> {
    let mut runs = Vec::new();
    for run in there.chunk_by(|one, other| one == other) {
        super::thrift::varint(&mut runs, (run.len() as u64) << 1);
        runs.push(u8::from(run[0]));
    }
    let mut out = u32::try_from(runs.len()).unwrap_or(u32::MAX).to_le_bytes().to_vec();
    out.extend(runs);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blanks_are_counted_in_runs_and_have_no_value() {
        let column = Column::maybe("a", Data::Whole(vec![Some(1), Some(2), None, Some(3)]));
        let mut expected = vec![6, 0, 0, 0, 4, 1, 2, 0, 2, 1];
        [1_i64, 2, 3].iter().for_each(|number| expected.extend(number.to_le_bytes()));
        assert_eq!(column.page(), expected);
        let texts = Column::needed("a", Data::Texts(vec![Some("ab".to_owned())]));
        assert_eq!(texts.page(), [2, 0, 0, 0, b'a', b'b']);
    }
}
