//! The shafts of a job as a building model: IFC 4.3 and IFC 4, written as STEP text.
//!
//! Each shaft is a pile as planned, one solid a piece; where its concrete was sounded, a second pile as it was
//! probably built, one revolved solid with the ends of its band beside it; and a ring around it for each layer of
//! the ground. Property sets are our own and never carry a name that buildingSMART keeps for itself.
//!
//! Words: *frame* = the place and the axis of a shaft, heights counted from its cut-off along the axis.
//! Units: metres, cubic metres, radians.
//! Source: [IFC-4-3], [IFC-4]; every file is checked against the rules of the schema by a general library.
//! Never: georeference a job whose grid is its own.

mod facts;
mod frame;
mod guid;
mod model;
mod pile;
mod site;
mod solid;
mod step;
mod stratum;

use crate::Job;
use model::Model;

/// Which edition of the schema a file keeps to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Schema {
    /// IFC 4, addendum 2, technical corrigendum 1.
    Ifc4,
    /// IFC 4.3, addendum 2.
    Ifc43,
}

impl Schema {
    /// Its name in the head of a file.
    pub fn name(self) -> &'static str {
        match self {
            Schema::Ifc4 => "IFC4",
            Schema::Ifc43 => "IFC4X3_ADD2",
        }
    }
}

/// The model of a job. The same record gives the same bytes.
pub fn write(job: &Job<'_, '_>, schema: Schema) -> String {
    let mut model = Model::begin(job, schema);
    for shaft in &job.shafts {
        pile::planned_pile(&mut model, shaft);
        pile::estimated(&mut model, shaft);
        stratum::rings(&mut model, shaft);
    }
    model.end()
}
