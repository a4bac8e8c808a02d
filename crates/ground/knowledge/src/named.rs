//! A table whose rows are all known by name at compile time: a misspelt name is then a fault of the build.

/// Makes a struct with one public field a row, read from a TOML table with exactly these keys.
macro_rules! named {
    ($(#[$meta:meta])* $name:ident of $row:ty { $($(#[$doc:meta])* $field:ident,)* }) => {
        $(#[$meta])*
        #[derive(Clone, Debug, serde::Deserialize, serde::Serialize)]
        #[serde(deny_unknown_fields)]
        pub struct $name { $($(#[$doc])* pub $field: $row,)* }

        impl $name {
            /// Every row with its key.
            pub fn all(&self) -> Vec<(&'static str, &$row)> {
                vec![$((stringify!($field), &self.$field)),*]
            }
        }
    };
}
pub(crate) use named;
