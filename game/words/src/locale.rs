//! The message files, compiled in.

/// One message file.
#[derive(Clone, Copy, Debug)]
pub(crate) struct MessageFile {
    /// Its name in the language's folder.
    pub(crate) name: &'static str,
    /// Its text.
    pub(crate) text: &'static str,
    /// Whether a site may put its own words in place of these messages. True where they are on
    /// the machine, name its controls and parts in a step, a button, a rule or a harm, or are said
    /// in the hall. False where the program speaks of itself, and for verdicts: no site rewords
    /// these. What a rule asks is its formula, which no words change.
    pub(crate) site_renames: bool,
}

/// One row of the table below.
macro_rules! file {
    ($name:literal, site_renames: $site_renames:literal) => {
        MessageFile {
            name: $name,
            text: include_str!(concat!("../../../assets/locales/en/", $name)),
            site_renames: $site_renames,
        }
    };
}

/// All English message files. A new file is one line here; a test finds a forgotten one.
pub(crate) const ENGLISH: &[MessageFile] = &[
    file!("commands.ftl", site_renames: false),
    file!("controls.ftl", site_renames: true),
    file!("drill-blocked-downstream.ftl", site_renames: false),
    file!("drill-left-inside.ftl", site_renames: false),
    file!("drill-left-inside-rowan.ftl", site_renames: false),
    file!("fault.ftl", site_renames: true),
    file!("file-problems.ftl", site_renames: false),
    file!("files.ftl", site_renames: false),
    file!("formulas.ftl", site_renames: false),
    file!("grade.ftl", site_renames: false),
    file!("hall.ftl", site_renames: true),
    file!("harm.ftl", site_renames: true),
    file!("machine.ftl", site_renames: true),
    file!("machine-dialog.ftl", site_renames: false),
    file!("machine-questions.ftl", site_renames: false),
    file!("panel.ftl", site_renames: true),
    file!("person.ftl", site_renames: true),
    file!("play.ftl", site_renames: false),
    file!("procedure.ftl", site_renames: true),
    file!("production.ftl", site_renames: true),
    file!("proof.ftl", site_renames: false),
    file!("prove.ftl", site_renames: false),
    file!("reckon.ftl", site_renames: false),
    file!("rules.ftl", site_renames: true),
    file!("service.ftl", site_renames: true),
    file!("screen-debrief.ftl", site_renames: false),
    file!("screen-drill.ftl", site_renames: false),
    file!("screen-panel.ftl", site_renames: true),
    file!("screen-course.ftl", site_renames: false),
    file!("sheet.ftl", site_renames: false),
    file!("statistics.ftl", site_renames: false),
    file!("verdict.ftl", site_renames: false),
    file!("way-on.ftl", site_renames: false),
    file!("site-words.ftl", site_renames: false),
    file!("window.ftl", site_renames: false),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_lists_every_file_of_the_folder() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../assets/locales/en");
        let mut in_folder: Vec<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .filter(|name| name.ends_with(".ftl"))
            .collect();
        in_folder.sort();
        let mut in_table: Vec<&str> = ENGLISH.iter().map(|file| file.name).collect();
        in_table.sort_unstable();
        assert_eq!(
            in_table, in_folder,
            "table (left) and folder (right) differ"
        );
    }
}
