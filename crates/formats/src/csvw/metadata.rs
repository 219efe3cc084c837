//! What every column holds, as CSVW has it.

use super::tables::{Column, Table};
use crate::Job;
use serde_json::{Value, json};

/// The metadata of the package.
pub(super) fn text(job: &Job<'_, '_>, tables: &[Table]) -> String {
    let opened = job.opened();
    let title = opened.map_or(job.key(), |job| job.name.as_str());
    let group = json!({
        "@context": ["http://www.w3.org/ns/csvw", { "@language": "en" }],
        "dc:title": title,
        "dc:identifier": job.key(),
        "dc:modified": job.as_of().to_string(),
        "dc:creator": job.program,
        "dc:description": format!(
            "{} entries; digest of the record {}. Units are SI and stand in the names of the columns; elevations are \
             above the datum of the job: {}. Grid: {}.",
            job.record.len(),
            job.digest(),
            opened.and_then(|job| job.datum.as_deref()).unwrap_or("not named"),
            opened.and_then(|job| job.grid.as_deref()).unwrap_or("not named"),
        ),
        "dialect": { "lineTerminators": ["\r\n"], "encoding": "utf-8", "header": true },
        "tables": tables.iter().map(table).collect::<Vec<Value>>(),
    });
    format!("{group:#}\n")
}

fn table(table: &Table) -> Value {
    let key: Vec<&str> = table.columns[..table.key].iter().map(|column| column.name).collect();
    let mut schema = json!({
        "columns": table.columns.iter().map(column).collect::<Vec<Value>>(),
        "primaryKey": key,
    });
    let of_a_shaft = table.file != "shafts.csv" && table.columns[0].name == "shaft";
    if of_a_shaft {
        let there = json!({ "resource": "shafts.csv", "columnReference": "shaft" });
        schema["foreignKeys"] = json!([{ "columnReference": "shaft", "reference": there }]);
    }
    json!({ "url": table.file, "dc:description": table.says, "tableSchema": schema })
}

fn column(column: &Column) -> Value {
    json!({
        "name": column.name,
        "titles": column.name,
        "dc:description": column.says,
        "datatype": column.kind,
        "required": column.needed,
    })
}
