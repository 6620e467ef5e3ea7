#include "cli/commands.h"

namespace cli {

namespace {

constexpr CommandRow kCommands[] = {
    {"read", "read ABC files and show what was understood, without a library", read_command},
    {"import", "index files and folders of ABC; only what changed is read again", import_command},
    {"tunes", "list tunes, by notes, key, rhythm, range or title", tunes_command},
    {"tune", "everything about one tune: key and why, notes and where they stand", tune_command},
    {"tunebook", "the chosen tunes as one ABC file, moved to other keys if asked", tunebook_command},
    {"next", "what a player should learn next, and what to play again", next_command},
    {"handout", "sheets to print: a tune in every bar, with fingers or buttons, for who reads no music",
     handout_command},
    {"evening", "a set list that fills so many minutes", evening_command},
    {"instrument", "what an instrument can play, and how each note is made", instrument_command},
    {"together", "several players: their common notes, tunes for all, and the one note that opens most for everyone",
     together_command},
    {"drill", "your notes up and down, and a new note in its place, with buttons or fingers", drill_command},
    {"check", "what looks wrong in the collection: labels, bars, repeats, duplicates, unreadable parts", check_command},
    {"same", "say that two versions are one tune, or list those that may be", same_command},
    {"mark", "keep tags, a count, a rhythm or a key for tunes, or show them", mark_command},
    {"player", "players: their instrument, their notes, and the tunes they know", player_command},
    {"notes", "what each note is worth in your tunes, and the fewest notes that give most of them", notes_command},
    {"path", "in which order to learn notes, one at a time, so that tunes open as soon as can be", path_command},
    {"syllabus", "a term on dates: which note and which tune in which lesson", syllabus_command},
    {"page", "a page for a browser with your tunes in it, which anyone can open", page_command},
    {"library", "where everything is kept, and how it is kept safe", library_command},
    {"guide", "how things are done, a page a question", guide_command},
    {"help", "every option of a command", help_command},
};

}  // namespace

std::span<const CommandRow> all_commands() { return kCommands; }

}  // namespace cli
