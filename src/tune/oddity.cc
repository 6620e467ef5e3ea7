// The kinds stand in one table, in the order of the enum, the reader's codes in another. Tested by oddity_test.cc,
// which holds the second against the reader's own list.
#include "tune/oddity.h"

namespace tune {

namespace {

struct KindWords {
    OddityKind kind;
    std::string_view token;
    std::string_view heading;
    std::string_view advice;
};

// clang-format off
constexpr std::array<KindWords, kOddityKinds.size()> kWords{{
    {OddityKind::unreadable, "unreadable", "Parts that could not be read as written",
     "Look at the place and write it as ABC has it; the message says what was done about it."},
    {OddityKind::key_label, "key-label", "Keys that disagree with the notes",
     "Look at the notes before changing K:, for a new signature changes how they sound."},
    {OddityKind::bar_length, "bar-length", "Bars that do not add up",
     "Count the bar: mostly a note length or a bar line is wrong, now and then M: or L:."},
    {OddityKind::open_repeat, "open-repeat", "Repeats and endings that lack their other half",
     "Add the sign that is missing, so that a player knows where to go back to and what to leave out."},
    {OddityKind::twin, "twin", "Tunes that are probably the same",
     "Play both; if they are one tune, gamut same says so, and gamut same --not that they are two."},
    {OddityKind::out_of_reach, "out-of-reach", "Notes out of reach",
     "Change the note, move the tune to another key, or leave it for another instrument."},
    {OddityKind::encoding, "encoding", "Letters that may be wrong",
     "Store the file as UTF-8, or name its charset at the top: %%abc-charset iso-8859-1."},
    {OddityKind::rhythm_meter, "rhythm-meter", "Rhythms that do not go with the meter",
     "See which of R: and M: is meant, and mend the other."},
    {OddityKind::missing_field, "missing-field", "Fields that are missing or cannot be read",
     "Write the field into the header; a tune is found and told apart by it."},
    {OddityKind::no_music, "no-music", "Headers without music",
     "Write the notes when you have them, or take the header out."},
    {OddityKind::twice_numbered, "twice-numbered", "Numbers that stand twice in one file",
     "Give each tune of a file an X: number of its own, so that it keeps its marks when you correct it."},
    {OddityKind::part_length, "part-length", "Parts of an unusual length",
     "Nothing need be wrong; count the bars if you mean to play for dancers."},
    {OddityKind::outdated, "outdated", "Written as ABC is no longer written",
     "It is read as it was meant; other programs may not know it, so write the newer form when you edit the tune."},
}};
// clang-format on

struct CodeKind {
    std::string_view code;
    OddityKind kind;
};

// Every code of the reader. Broken tuplets and rhythms show in the bar they stand in, so they are told of with the
// bars.
constexpr std::array<CodeKind, 51> kCodes{{
    {"abc-no-number", OddityKind::missing_field},     {"abc-bad-number", OddityKind::missing_field},
    {"abc-number-again", OddityKind::twice_numbered}, {"abc-no-blank-line", OddityKind::unreadable},
    {"abc-fields-outside", OddityKind::unreadable},   {"abc-music-outside", OddityKind::unreadable},
    {"abc-no-title", OddityKind::missing_field},      {"abc-no-key", OddityKind::missing_field},
    {"abc-no-music", OddityKind::no_music},           {"abc-text-in-header", OddityKind::unreadable},
    {"abc-indented-field", OddityKind::unreadable},   {"abc-unknown-field", OddityKind::unreadable},
    {"abc-stray-field", OddityKind::unreadable},      {"abc-unclosed-field", OddityKind::unreadable},
    {"abc-unknown-key", OddityKind::missing_field},   {"abc-odd-key", OddityKind::unreadable},
    {"abc-words-after-key", OddityKind::unreadable},  {"abc-unknown-specifier", OddityKind::unreadable},
    {"abc-bad-meter", OddityKind::missing_field},     {"abc-bad-unit", OddityKind::unreadable},
    {"abc-bad-macro", OddityKind::unreadable},        {"abc-bad-symbol", OddityKind::unreadable},
    {"abc-bad-voice", OddityKind::unreadable},        {"abc-bad-instruction", OddityKind::unreadable},
    {"abc-include-not-read", OddityKind::unreadable}, {"abc-guessed-charset", OddityKind::encoding},
    {"abc-mail-residue", OddityKind::unreadable},     {"abc-page-residue", OddityKind::unreadable},
    {"abc-long-line", OddityKind::unreadable},        {"abc-long-tune", OddityKind::unreadable},
    {"abc-old-continuation", OddityKind::outdated},   {"abc-bad-length", OddityKind::unreadable},
    {"abc-lone-accidental", OddityKind::unreadable},  {"abc-microtone", OddityKind::unreadable},
    {"abc-out-of-range", OddityKind::unreadable},     {"abc-unknown-letter", OddityKind::unreadable},
    {"abc-unknown-sign", OddityKind::unreadable},     {"abc-reserved-sign", OddityKind::unreadable},
    {"abc-unclosed-quote", OddityKind::unreadable},   {"abc-unclosed-chord", OddityKind::unreadable},
    {"abc-unclosed-grace", OddityKind::unreadable},   {"abc-stray-bracket", OddityKind::unreadable},
    {"abc-bad-tuplet", OddityKind::bar_length},       {"abc-short-tuplet", OddityKind::bar_length},
    {"abc-lone-broken", OddityKind::bar_length},      {"abc-lone-tie", OddityKind::unreadable},
    {"abc-old-break", OddityKind::outdated},          {"abc-old-decoration", OddityKind::outdated},
    {"abc-old-chord", OddityKind::outdated},          {"abc-rest-without-meter", OddityKind::missing_field},
    {"abc-lengths-too-fine", OddityKind::bar_length},
}};

const KindWords& words_for(OddityKind kind) noexcept { return kWords[static_cast<std::size_t>(kind)]; }

}  // namespace

std::string_view oddity_token(OddityKind kind) noexcept { return words_for(kind).token; }
std::string_view oddity_heading(OddityKind kind) noexcept { return words_for(kind).heading; }
std::string_view oddity_advice(OddityKind kind) noexcept { return words_for(kind).advice; }

std::optional<OddityKind> parse_oddity_kind(std::string_view token) noexcept {
    for (const KindWords& words : kWords)
        if (words.token == token) return words.kind;
    return std::nullopt;
}

OddityKind kind_of_code(std::string_view code) noexcept {
    for (const CodeKind& known : kCodes)
        if (known.code == code) return known.kind;
    return OddityKind::unreadable;
}

std::vector<std::string_view> codes_with_kind() {
    std::vector<std::string_view> codes;
    for (const CodeKind& known : kCodes) codes.push_back(known.code);
    return codes;
}

}  // namespace tune
