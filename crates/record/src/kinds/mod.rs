//! The kinds of entries, one file a family, and the body that is one of them.
//!
//! Adding a kind is one declaration in its family's file and one name in the list at the end of this one;
//! forms, notes, tables, the stored form and the coverage page follow from it (docs/recipes.md).

pub mod after;
pub mod always;
pub mod before;
pub mod bottom;
pub mod cage;
pub mod casing;
pub mod excavation;
pub mod job;
pub mod plan;
pub mod pour;

use crate::field::{Fault, FaultKind, Field, FieldSpec, Group, How, Shape};
use crate::value::Value;
use quantity::Gather;
use std::collections::BTreeMap;

pub use after::*;
pub use always::*;
pub use before::*;
pub use bottom::*;
pub use cage::*;
pub use casing::*;
pub use excavation::*;
pub use job::*;
pub use plan::*;
pub use pour::*;

/// The families of entries, in the order of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// About the job.
    Job,
    /// What a shaft should be.
    Plan,
    /// Before the drill turns.
    Before,
    /// Casings.
    Casing,
    /// Making the hole.
    Excavation,
    /// The bottom.
    Bottom,
    /// The cage.
    Cage,
    /// The pour.
    Pour,
    /// After the pour.
    After,
    /// At any time.
    Always,
}

/// What every kind of entry can say of itself.
pub trait EntryKind: Group {
    /// Its word in notes and in the stored form.
    const WORD: &'static str;
    /// Its family.
    const FAMILY: Family;
    /// What it means, in one sentence.
    const MEANING: &'static str;
    /// The body as this kind, when it is one.
    fn of(body: &Body) -> Option<&Self>;
}

/// A kind of entry, described for forms, manuals and readers.
#[derive(Debug, Clone, Copy)]
pub struct KindSpec {
    /// Its word.
    pub word: &'static str,
    /// Its family.
    pub family: Family,
    /// What it means.
    pub meaning: &'static str,
    /// Its fields.
    pub fields: &'static [FieldSpec],
}

impl KindSpec {
    /// Nobody writes it by hand: a program makes it of what it did.
    pub fn is_made(&self) -> bool {
        matches!(self.word, "notes_read" | "shaft_sealed")
    }
}

macro_rules! bodies {
    ($($name:ident)*) => {
        /// What an entry says: one of the kinds.
        #[derive(Debug, Clone, PartialEq)]
        #[expect(missing_docs, reason = "each variant holds the kind of the same name, documented there")]
        #[allow(clippy::large_enum_variant, reason = "bodies are few and read far more often than moved")]
        pub enum Body { $($name($name),)* }

        /// Every kind, in the order of the work.
        pub const KINDS: &[KindSpec] = &[$(KindSpec {
            word: <$name as EntryKind>::WORD,
            family: <$name as EntryKind>::FAMILY,
            meaning: <$name as EntryKind>::MEANING,
            fields: <$name as Group>::FIELDS,
        },)*];

        impl Body {
            /// The kind it is.
            pub fn kind(&self) -> &'static KindSpec {
                let word = match self { $(Body::$name(_) => <$name as EntryKind>::WORD,)* };
                KINDS.iter().find(|kind| kind.word == word).expect("every variant stands in the list")
            }

            /// Its fields, as the neutral tree.
            pub fn to_group(&self) -> BTreeMap<String, Value> {
                match self { $(Body::$name(inner) => inner.to_group(),)* }
            }

            /// The body of a kind, from its fields.
            ///
            /// # Errors
            /// An unknown kind, and every fault of its fields.
            pub fn from_group(
                word: &str,
                group: &BTreeMap<String, Value>,
                path: &str,
                how: &How<'_>,
            ) -> Result<Self, Vec<Fault>> {
                $(if word == <$name as EntryKind>::WORD {
                    return $name::from_group(group, path, how).map(Body::$name);
                })*
                Err(Fault::one(path, FaultKind::UnknownKind(word.to_owned())))
            }
        }

        $(impl From<$name> for Body {
            fn from(inner: $name) -> Body { Body::$name(inner) }
        })*
    };
}

bodies! {
    JobOpened PersonNamed DeviceNamed CriteriaChosen LimitChanged MixApproved FluidApproved DocumentListed NotesRead
    SealNeeds
    ShaftPlanned StrataExpected CasingPlanned CagePlanned AnchorsPlanned PourPlanned
    InstallationPlan EquipmentChecked InstrumentChecked StakeOut UtilitiesCleared ReferenceSet MeetingHeld
    CasingSet CasingAdvanced CasingLifted CasingOut CasingLeft
    DrillingStarted ToolRun StratumMet Obstruction Groundwater InflowMeasured Caving FluidIntroduced FluidLevel
    FluidTest FluidTreated WorkStopped WorkResumed BottomReached OverExcavated RockSocket BellCut PlumbMeasured BoreMeasured SampleTaken
    Cleaning BottomSounded SedimentMeasured BottomAccepted
    CageChecked CageSet CageElevation SensorsPlaced TubesChecked TubesFilled TubeWater
    LineMadeUp TipMoved PiecesRemoved LineOut LoadArrived ConcreteTest WaterAdded LoadRefused DischargeStarted
    DischargeEnded ConcreteWasted ConcreteSounded Interruption OverPoured Vibrated ConcreteOrdered
    TopFormed ConduitSet AnchorsSet Curing TemperatureRead CylindersMade CylinderBroken FormRemoved IntegrityTest
    RepairMade Trimmed AsBuilt
    Remark Weather Photo Correction DisputeClosed QuestionAsked QuestionAnswered Comment FindingDisposed NoticeGiven
    NotApplicable HoldPlaced HoldReleased Signed ShaftSealed
}

/// The kind a word names.
pub fn kind_of(word: &str) -> Option<&'static KindSpec> {
    KINDS.iter().find(|kind| kind.word == word)
}

/// A whole body as a field: `{kind, body}`; only corrections hold one.
impl Field for Box<Body> {
    fn shape() -> Shape {
        Shape::Body
    }
    fn put(&self) -> Option<Value> {
        let word = Value::Text(self.kind().word.to_owned());
        let group = [("kind".to_owned(), word), ("body".to_owned(), Value::Group(self.to_group()))];
        Some(Value::Group(group.into_iter().into_map()))
    }
    fn take(value: Option<&Value>, path: &str, how: &How<'_>) -> Result<Self, Vec<Fault>> {
        let group = crate::field::group_at(value, path)?;
        let word = crate::field::text_at(group.get("kind"), &crate::field::join(path, "kind"))?;
        let at = crate::field::join(path, "body");
        let none = Value::Group(BTreeMap::new());
        let blank = matches!(how, How::Typed(_)).then_some(&none);
        let body = crate::field::group_at(group.get("body").or(blank), &at)?;
        if let Some(extra) = group.keys().find(|key| *key != "kind" && *key != "body") {
            let fault = FaultKind::UnknownField(vec!["kind", "body"]);
            return Err(Fault::one(&crate::field::join(path, extra), fault));
        }
        if word == Correction::WORD {
            let (found, expected) = ("a correction", "what should have been written");
            return Err(Fault::one(path, FaultKind::Sort { found, expected }));
        }
        Body::from_group(word, body, &at, how).map(Box::new)
    }
}
