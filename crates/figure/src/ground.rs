//! Kinds of ground, and the words of a description that tell which hatching stands for it.
//!
//! The hatchings follow the idea of the public geologic map patterns ([FGDC-PATTERNS]): dots for sand,
//! dashes for clay, circles for gravel, bricks for limestone. They are drawn here, not copied.
//!
//! Never: stand for an engineering classification; the description as written is printed beside it.

/// What a stratum is drawn as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Ground {
    /// Made ground: short strokes at random.
    Fill,
    /// Topsoil, peat, organic ground: small tufts.
    Organic,
    /// Clay: broken horizontal lines.
    Clay,
    /// Silt: dash and dot.
    Silt,
    /// Sand: dots.
    Sand,
    /// Sand with clay or clay with sand: dots between dashes.
    ClayeySand,
    /// Sand with silt or silt with sand: dots between dash-dot lines.
    SiltySand,
    /// Gravel: open pebbles.
    Gravel,
    /// Sand and gravel: dots and pebbles.
    SandyGravel,
    /// Cobbles and boulders: large pebbles.
    Cobbles,
    /// Shale, claystone, siltstone, mudstone: close lines with dashes.
    Shale,
    /// Sandstone: dots between bedding lines.
    Sandstone,
    /// Limestone, dolomite, chalk: bricks.
    Limestone,
    /// Granite, gneiss, basalt and other crystalline rock: crosses.
    Crystalline,
    /// Rock of a kind not said, or weathered rock: slanted broken lines.
    Rock,
    /// The description names no kind of ground that is known here: left blank with sparse question marks.
    #[default]
    NotRecorded,
}

/// Word beginnings (lower case) of a description, in the order in which they decide.
const ROCKS: &[(&str, Ground)] = &[
    ("sandstone", Ground::Sandstone),
    ("limestone", Ground::Limestone),
    ("dolomit", Ground::Limestone),
    ("dolostone", Ground::Limestone),
    ("chalk", Ground::Limestone),
    ("shale", Ground::Shale),
    ("mudstone", Ground::Shale),
    ("claystone", Ground::Shale),
    ("siltstone", Ground::Shale),
    ("slate", Ground::Shale),
    ("marl", Ground::Shale),
    ("granit", Ground::Crystalline),
    ("gneiss", Ground::Crystalline),
    ("basalt", Ground::Crystalline),
    ("schist", Ground::Crystalline),
    ("quartzite", Ground::Crystalline),
    ("diorite", Ground::Crystalline),
    ("rock", Ground::Rock),
    ("bedrock", Ground::Rock),
];

impl Ground {
    /// Which hatching a written description is drawn with.
    ///
    /// ```
    /// use figure::Ground;
    /// assert_eq!(Ground::of_description("medium dense silty fine SAND, wet"), Ground::SiltySand);
    /// assert_eq!(Ground::of_description("weathered shale"), Ground::Shale);
    /// assert_eq!(Ground::of_description("brown"), Ground::NotRecorded);
    /// ```
    pub fn of_description(text: &str) -> Self {
        let lower = text.to_lowercase();
        let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).filter(|w| !w.is_empty()).collect();
        let has = |start: &str| words.iter().any(|word| word.starts_with(start));
        let rock = ROCKS.iter().find(|(start, _)| has(start)).map(|(_, ground)| *ground);
        rock.unwrap_or_else(|| of_soil(has))
    }
}

fn of_soil(has: impl Fn(&str) -> bool) -> Ground {
    let (clay, silt, sand, gravel) = (has("clay"), has("silt"), has("sand"), has("gravel"));
    match () {
        () if has("cobble") || has("boulder") => Ground::Cobbles,
        () if has("fill") || has("made") || has("rubble") || has("pavement") => Ground::Fill,
        () if has("topsoil") || has("peat") || has("organic") || has("muck") => Ground::Organic,
        () if gravel && sand => Ground::SandyGravel,
        () if gravel => Ground::Gravel,
        () if sand && clay => Ground::ClayeySand,
        () if sand && silt => Ground::SiltySand,
        () if sand => Ground::Sand,
        () if clay => Ground::Clay,
        () if silt || has("loess") || has("loam") => Ground::Silt,
        () => Ground::NotRecorded,
    }
}

#[cfg(test)]
mod tests {
    use super::Ground;

    #[track_caller]
    fn check(text: &str, expected: Ground) {
        assert_eq!(Ground::of_description(text), expected, "{text}");
    }

    #[test]
    fn descriptions_as_inspectors_write_them() {
        check("Stiff lean clay, brown", Ground::Clay);
        check("SAND w/ trace silt", Ground::SiltySand);
        check("sandy clay (CL)", Ground::ClayeySand);
        check("well-graded gravel with sand", Ground::SandyGravel);
        check("Sandstone, moderately hard", Ground::Sandstone);
        check("fill: sand, brick", Ground::Fill);
        check("granite boulders", Ground::Crystalline);
        check("", Ground::NotRecorded);
    }
}
