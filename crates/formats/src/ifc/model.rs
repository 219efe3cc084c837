//! The model as it grows: what every element needs, and the relations that end it.

use super::Schema;
use super::facts::Facts;
use super::guid::guid;
use super::site::{self, Site};
use super::step::{Head, Ref, Step, Value};
use crate::Job;

/// Which of the three an element is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    Planned,
    Estimated,
    Stratum,
}

impl Part {
    const ALL: [Part; 3] = [Part::Planned, Part::Estimated, Part::Stratum];

    /// What the group of them is called, and what it says of itself.
    fn group(self) -> [&'static str; 2] {
        match self {
            Part::Planned => ["Shafts as planned", "Nominal solids of the plan, piece by piece."],
            Part::Estimated => [
                "Shafts as estimated from the pour",
                "An estimate from soundings and tickets: circles of the estimated area, with a band that holds \
                 it nine times in ten. No survey of the hole.",
            ],
            Part::Stratum => [
                "Strata at the shafts",
                "A ring around the hole for each layer; it marks the layer at the hole and not how far it reaches.",
            ],
        }
    }

    /// Red, green, blue and how much shines through.
    fn colour(self) -> [f64; 4] {
        match self {
            Part::Planned => [0.45, 0.55, 0.65, 0.5],
            Part::Estimated => [0.62, 0.58, 0.52, 0.0],
            Part::Stratum => [0.70, 0.55, 0.30, 0.6],
        }
    }
}

/// A model as it grows.
pub(super) struct Model<'j, 'v, 'r> {
    pub(super) job: &'j Job<'v, 'r>,
    pub(super) schema: Schema,
    pub(super) step: Step,
    pub(super) site: Site,
    elements: Vec<(Part, Ref)>,
}

/// An element before it is written.
pub(super) struct Element<'a> {
    pub(super) part: Part,
    pub(super) entity: &'static str,
    /// What it is, beside job and shaft: the words its id is made of.
    pub(super) id: &'a [&'a str],
    pub(super) name: String,
    pub(super) description: String,
    pub(super) object_type: Option<&'a str>,
    pub(super) frame: Ref,
    pub(super) solids: Vec<Ref>,
    /// What stands behind the attributes every element has.
    pub(super) last: Vec<Value>,
    pub(super) facts: Vec<Facts>,
}

impl<'j, 'v, 'r> Model<'j, 'v, 'r> {
    pub(super) fn begin(job: &'j Job<'v, 'r>, schema: Schema) -> Self {
        let mut step = Step::default();
        let site = site::begin(&mut step, job);
        Model { job, schema, step, site, elements: Vec::new() }
    }

    /// The id of a thing of this job.
    pub(super) fn id(&self, words: &[&str]) -> Value {
        let all: Vec<&str> = [self.job.key()].iter().chain(words).copied().collect();
        Value::Text(guid(&all))
    }

    /// Writes an element with its solids and facts.
    pub(super) fn element(&mut self, element: Element<'_>) {
        let style = self.style(element.part);
        for solid in &element.solids {
            self.step.add("IFCSTYLEDITEM", &[Value::Ref(*solid), Value::refs(&[style]), Value::Blank]);
        }
        let words = |text: &str| Value::Text(text.to_owned());
        let body =
            [Value::Ref(self.site.body), words("Body"), words("SweptSolid"), Value::refs(&element.solids)];
        let body = self.step.add("IFCSHAPEREPRESENTATION", &body);
        let shape = [Value::Blank, Value::Blank, Value::refs(&[body])];
        let shape = self.step.add("IFCPRODUCTDEFINITIONSHAPE", &shape);
        let mut values = vec![self.id(element.id), Value::Blank];
        values.push(Value::Text(label(&element.name)));
        values.push(Value::Text(element.description));
        values.push(Value::maybe(element.object_type));
        values.extend([Value::Ref(element.frame), Value::Ref(shape), Value::Text(label(&element.name))]);
        values.extend(element.last);
        let made = self.step.add(element.entity, &values);
        for facts in element.facts {
            self.tell(made, facts, element.id);
        }
        self.elements.push((element.part, made));
    }

    /// Puts a set of facts on a thing.
    pub(super) fn tell(&mut self, of: Ref, facts: Facts, id: &[&str]) {
        let ids = ["set", "relation"].map(|which| {
            let words: Vec<&str> = id.iter().copied().chain([facts.name, which]).collect();
            self.id(&words)
        });
        let [set_id, relation_id] = ids;
        let set = facts.write(&mut self.step, set_id);
        let relation =
            [relation_id, Value::Blank, Value::Blank, Value::Blank, Value::refs(&[of]), Value::Ref(set)];
        self.step.add("IFCRELDEFINESBYPROPERTIES", &relation);
    }

    fn style(&mut self, part: Part) -> Ref {
        let [red, green, blue, through] = part.colour();
        let colour = [Value::Blank, Value::Real(red), Value::Real(green), Value::Real(blue)];
        let colour = self.step.share("IFCCOLOURRGB", &colour);
        let shading = self.step.share("IFCSURFACESTYLESHADING", &[Value::Ref(colour), Value::Real(through)]);
        let [name, _] = part.group();
        let style = [Value::Text(name.to_owned()), Value::Word("BOTH"), Value::refs(&[shading])];
        self.step.share("IFCSURFACESTYLE", &style)
    }

    /// The relations, and the file.
    pub(super) fn end(mut self) -> String {
        site::facts(&mut self);
        let all: Vec<Ref> = self.elements.iter().map(|(_, element)| *element).collect();
        if !all.is_empty() {
            let id = self.id(&["contained"]);
            let of = [Value::refs(&all), Value::Ref(self.site.site)];
            let head = [id, Value::Blank, Value::Blank, Value::Blank];
            self.step.add("IFCRELCONTAINEDINSPATIALSTRUCTURE", &[&head[..], &of[..]].concat());
        }
        Part::ALL.into_iter().for_each(|part| self.group(part));
        self.file()
    }

    fn group(&mut self, part: Part) {
        let members: Vec<Ref> =
            self.elements.iter().filter(|(of, _)| *of == part).map(|(_, element)| *element).collect();
        if members.is_empty() {
            return;
        }
        let [name, says] = part.group();
        let [id, relation] = [self.id(&["group", name]), self.id(&["group", name, "relation"])];
        let group =
            [id, Value::Blank, Value::Text(name.to_owned()), Value::Text(says.to_owned()), Value::Blank];
        let group = self.step.add("IFCGROUP", &group);
        let head = [relation, Value::Blank, Value::Blank, Value::Blank];
        let of = [Value::refs(&members), Value::Blank, Value::Ref(group)];
        self.step.add("IFCRELASSIGNSTOGROUP", &[&head[..], &of[..]].concat());
    }

    fn file(self) -> String {
        let opened = self.job.opened();
        let time = self.job.as_of().local().to_string();
        self.step.file(&Head {
            description: "No model view definition is claimed.",
            name: opened.map_or(self.job.key(), |job| &job.name),
            time: &time,
            organization: opened.and_then(|job| job.owner.as_deref()).unwrap_or_default(),
            program: self.job.program,
            schema: self.schema.name(),
        })
    }
}

/// A label holds 255 characters at most.
pub(super) fn label(text: &str) -> String {
    text.chars().take(255).collect()
}
