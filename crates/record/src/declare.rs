//! The declarations: one place says what an entry kind holds, and everything else follows from it.
//!
//! `group!` declares named fields, `choice!` a few words, `scaled!` a quantity whose bare number has a
//! unit of its own. The doc comment of a field is what a form and the notes manual print.

/// A struct of fields that reads and writes itself as a group.
macro_rules! group {
    ($($(#[doc = $doc:literal])+ $name:ident { $($(#[doc = $fdoc:literal])+ $field:ident: $type:ty,)* })*) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name {
            $($(#[doc = $fdoc])+ pub $field: $type,)*
        }

        impl $crate::field::Group for $name {
            const FIELDS: &'static [$crate::field::FieldSpec] = &[$($crate::field::FieldSpec {
                name: stringify!($field),
                meaning: concat!($($fdoc),+),
                may_be_blank: <$type as $crate::field::Field>::MAY_BE_BLANK,
                shape: <$type as $crate::field::Field>::shape,
            }),*];

            #[allow(unused_mut, reason = "a kind may have no fields at all")]
            fn to_group(&self) -> std::collections::BTreeMap<String, $crate::value::Value> {
                let mut group = std::collections::BTreeMap::new();
                $($crate::field::put_in(&mut group, stringify!($field), &self.$field);)*
                group
            }

            #[allow(unused_mut, unused_variables, reason = "a kind may have no fields at all")]
            fn from_group(
                group: &std::collections::BTreeMap<String, $crate::value::Value>,
                path: &str,
                how: &$crate::field::How<'_>,
            ) -> Result<Self, Vec<$crate::field::Fault>> {
                let mut taking = $crate::field::Taking::of(group, path, how);
                taking.refuse_unknown(Self::FIELDS);
                $(let $field = taking.take::<$type>(stringify!($field));)*
                if !taking.faults.is_empty() {
                    return Err(taking.faults);
                }
                Ok($name { $($field: $field.expect("a field without a fault was taken"),)* })
            }
        }

        impl $crate::field::Field for $name {
            fn shape() -> $crate::field::Shape {
                $crate::field::Shape::Group(<Self as $crate::field::Group>::FIELDS)
            }
            fn put(&self) -> Option<$crate::value::Value> {
                Some($crate::value::Value::Group($crate::field::Group::to_group(self)))
            }
            fn take(
                value: Option<&$crate::value::Value>,
                path: &str,
                how: &$crate::field::How<'_>,
            ) -> Result<Self, Vec<$crate::field::Fault>> {
                <Self as $crate::field::Group>::from_group($crate::field::group_at(value, path)?, path, how)
            }
        }
    )*};
}

/// An enumeration written as one of a few words.
macro_rules! choice {
    ($($(#[doc = $doc:literal])+ $name:ident { $($(#[doc = $vdoc:literal])+ $variant:ident = $word:literal,)* })*) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[doc = $vdoc])+ $variant,)*
        }

        impl $name {
            /// Every word, with its meaning.
            pub const WORDS: &'static [$crate::field::ChoiceSpec] =
                &[$($crate::field::ChoiceSpec { word: $word, meaning: concat!($($vdoc),+) }),*];

            /// The word as written and stored.
            pub fn word(self) -> &'static str {
                match self { $($name::$variant => $word,)* }
            }
        }

        impl $crate::field::Field for $name {
            fn shape() -> $crate::field::Shape {
                $crate::field::Shape::Choice(Self::WORDS)
            }
            fn put(&self) -> Option<$crate::value::Value> {
                Some($crate::value::Value::Text(self.word().to_owned()))
            }
            fn take(
                value: Option<&$crate::value::Value>,
                path: &str,
                how: &$crate::field::How<'_>,
            ) -> Result<Self, Vec<$crate::field::Fault>> {
                let found = $crate::field::text_at(value, path)?;
                let word = $crate::field::plain_word(found, how);
                match word.as_str() {
                    $($word => Ok($name::$variant),)*
                    _ => Err($crate::field::Fault::one(path, $crate::field::FaultKind::Word {
                        found: found.to_owned(),
                        allowed: vec![$($word),*],
                    })),
                }
            }
        }
    )*};
}

/// A quantity whose bare number has a unit of its own.
macro_rules! scaled {
    ($($(#[doc = $doc:literal])+ $name:ident($quantity:ident, $scale:ident);)*) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name(pub quantity::Entered<quantity::$quantity>);

        impl std::ops::Deref for $name {
            type Target = quantity::Entered<quantity::$quantity>;
            fn deref(&self) -> &Self::Target {
                &self.0
            }
        }

        impl $crate::field::Field for $name {
            fn shape() -> $crate::field::Shape {
                $crate::field::Shape::Quantity(
                    <quantity::$quantity as quantity::Quantity>::KIND, $crate::field::Scale::$scale)
            }
            fn put(&self) -> Option<$crate::value::Value> {
                Some($crate::value::Value::Text(self.0.stored()))
            }
            fn take(
                value: Option<&$crate::value::Value>,
                path: &str,
                how: &$crate::field::How<'_>,
            ) -> Result<Self, Vec<$crate::field::Fault>> {
                $crate::field::take_entered(value, path, how, $crate::field::Scale::$scale).map($name)
            }
        }
    )*};
}

/// The kinds of one family, each a group with a name and a place in `Body`.
macro_rules! kinds {
    ($family:ident: $($(#[doc = $doc:literal])+ $name:ident = $word:literal { $($fields:tt)* })*) => {
        $crate::declare::group! { $($(#[doc = $doc])+ $name { $($fields)* })* }
        $(
            impl $crate::kinds::EntryKind for $name {
                const WORD: &'static str = $word;
                const FAMILY: $crate::kinds::Family = $crate::kinds::Family::$family;
                const MEANING: &'static str = concat!($($doc),+);
                fn of(body: &$crate::kinds::Body) -> Option<&Self> {
                    match body {
                        $crate::kinds::Body::$name(inner) => Some(inner),
                        _ => None,
                    }
                }
            }
        )*
    };
}

pub(crate) use {choice, group, kinds, scaled};
