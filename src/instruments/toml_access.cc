#include "instruments/toml_access.h"

#include <algorithm>

#include "music/pitch.h"

namespace instruments {

void misread(const toml::source_region& where, std::string sentence) {
    throw Misread{std::max<std::uint32_t>(where.begin.line, 1), std::max<std::uint32_t>(where.begin.column, 1),
                  std::move(sentence)};
}

namespace {

constexpr int kMostKeyParts = 8;  // Source: house choice; an instrument needs two

// From `text[at]`, an opening quote, to behind the closing one; to the end where there is none. Refuses what toml++ is
// undefined for also in a text: a letter beyond ASCII behind a backslash, with blanks or line ends between or none.
template <typename Refuse>
std::size_t behind_string(std::string_view text, std::size_t at, const Refuse& refuse) {
    const char quote = text[at];
    const bool is_long = text.substr(at, 3) == std::string(3, quote);
    const std::string closing(is_long ? 3 : 1, quote);
    for (at += closing.size(); at < text.size(); ++at) {
        if (text.substr(at, closing.size()) == closing) {
            at += closing.size();
            // Up to two quotes may stand before the closing three. Source: TOML 1.0.0, section String.
            for (int extra = 0; is_long && extra < 2 && at < text.size() && text[at] == quote; ++extra) ++at;
            return at;
        }
        if (quote == '"' && text[at] == '\\') {
            const std::size_t next = is_long ? text.find_first_not_of(" \t\r\n", at + 1) : at + 1;
            if (next < text.size() && static_cast<unsigned char>(text[next]) >= 0x80)
                refuse(next, "this is no TOML: letters and signs beyond ASCII do not stand behind a backslash");
            ++at;
        }
        if (!is_long && at < text.size() && text[at] == '\n') return at;
    }
    return text.size();
}

}  // namespace

void check_before_parsing(std::string_view text) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    const auto refuse = [&](std::size_t at, const std::string& sentence) {
        const std::string_view above = text.substr(0, at);
        const std::size_t line_start = above.rfind('\n') + 1;  // 0 where there is none
        const auto starts_code_point = [](char byte) { return (byte & 0xC0) != 0x80; };
        throw Misread{
            static_cast<std::uint32_t>(1 + std::count(above.begin(), above.end(), '\n')),
            static_cast<std::uint32_t>(1 + std::count_if(above.begin() + line_start, above.end(), starts_code_point)),
            sentence};
    };
    int dots = 0;
    char before = '\n';  // the last sign that is no blank
    bool is_behind_equals = false;
    std::string open;  // brackets
    // Whether a text, an array or a table can begin behind `before`.
    const auto can_begin = [&] { return std::string_view("\n=[{,").find(before) != std::string_view::npos; };
    for (std::size_t at = text.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0; at < text.size();) {
        const char c = text[at];
        if (c == '"' || c == '\'') {
            // Elsewhere the parser does not take it for one, and reads on as if it stood outside.
            if (!can_begin() && (before != '.' || is_behind_equals))
                refuse(at, "this is no TOML: no text can begin here");
            at = behind_string(text, at, refuse);
            before = c;
            continue;
        }
        if (c == '#') {
            at = std::min(text.find('\n', at), text.size());
            continue;
        }
        if (static_cast<unsigned char>(c) >= 0x80)
            refuse(at, "this is no TOML: letters and signs beyond ASCII stand between quotes");
        if (c == '\n' || c == '=' || c == '[' || c == '{' || c == ',') dots = 0;
        // Signs of grammar are so only where they can stand; within a value they are letters like all others.
        const bool is_in_array = open.ends_with('[');
        const bool is_sign = c == '[' || c == '{' ? can_begin()
                             : c == '='           ? !is_behind_equals && !is_in_array
                             : c == ','           ? !open.empty()
                                                  : true;
        if ((c == '[' || c == '{') && is_sign) open += c;
        if ((c == ']' || c == '}') && !open.empty()) open.pop_back();
        if (c == '=' && is_sign) is_behind_equals = true;
        if (c == '\n' || (c == '{' && is_sign) || (c == ',' && !is_in_array)) is_behind_equals = false;
        if (c != ' ' && c != '\t' && c != '\r') before = is_sign ? c : 'x';
        if (c == '.' && ++dots >= kMostKeyParts) refuse(at, "a key has too many dots");
        ++at;
    }
}

std::string listed(std::span<const std::string_view> words) {
    std::string text;
    for (std::size_t at = 0; at < words.size(); ++at) {
        if (at > 0) text += at + 1 == words.size() ? " and " : ", ";
        text += words[at];
    }
    return text;
}

void check_keys(const toml::table& table, std::span<const std::string_view> known) {
    const toml::key* first = nullptr;
    for (const auto& entry : table) {
        const toml::key& key = entry.first;
        if (std::find(known.begin(), known.end(), key.str()) != known.end()) continue;
        if (first == nullptr || key.source().begin < first->source().begin) first = &key;
    }
    if (first == nullptr) return;
    misread(first->source(),
            "\"" + std::string(first->str()) + "\" is no key of an instrument; there are " + listed(known));
}

std::string text_of(const toml::node& node, std::string_view what) {
    const auto text = node.value_exact<std::string>();
    if (!text) misread(node.source(), std::string(what) + " must be a text in quotes");
    if (text->find_first_not_of(" \t\r\n") == std::string::npos)
        misread(node.source(), std::string(what) + " must not be empty");
    if (text->size() > kMostTextBytes)
        misread(node.source(),
                std::string(what) + " must be no longer than " + std::to_string(kMostTextBytes) + " bytes");
    for (const char c : *text)
        if (static_cast<unsigned char>(c) < ' ' || c == '\x7f')
            misread(node.source(), std::string(what) + " must be one line without control characters");
    return *text;
}

int number_of(const toml::node& node, std::string_view what, int lowest, int highest) {
    const auto number = node.value_exact<std::int64_t>();
    if (!number || *number < lowest || *number > highest)
        misread(node.source(), std::string(what) + " must be a whole number from " + std::to_string(lowest) + " to " +
                                   std::to_string(highest));
    return static_cast<int>(*number);
}

std::vector<std::string> texts_of(const toml::node& node, std::string_view what) {
    const toml::array* array = node.as_array();
    if (array == nullptr) misread(node.source(), std::string(what) + " must be a list of texts: [\"...\", \"...\"]");
    if (array->size() > kMostTexts)
        misread(node.source(), std::string(what) + " must have no more than " + std::to_string(kMostTexts) + " values");
    std::vector<std::string> texts;
    for (const toml::node& each : *array) {
        std::string text = text_of(each, "each of " + std::string(what));
        if (std::find(texts.begin(), texts.end(), text) != texts.end())
            misread(each.source(), "\"" + text + "\" comes twice in " + std::string(what));
        texts.push_back(std::move(text));
    }
    return texts;
}

int note_of(const toml::node& node) {
    const std::string text = text_of(node, "a note");
    const auto pitch = music::parse_pitch(text);
    if (!pitch) misread(node.source(), "\"" + text + "\" is no note from C-1 to G9: write it like A3, C#5 or Bb4");
    return pitch->midi();
}

std::optional<std::string> text_at(const toml::table& table, std::string_view key) {
    const toml::node* node = table.get(key);
    return node ? std::optional(text_of(*node, key)) : std::nullopt;
}

std::optional<int> number_at(const toml::table& table, std::string_view key, int lowest, int highest) {
    const toml::node* node = table.get(key);
    return node ? std::optional(number_of(*node, key, lowest, highest)) : std::nullopt;
}

std::vector<std::string> texts_at(const toml::table& table, std::string_view key) {
    const toml::node* node = table.get(key);
    return node ? texts_of(*node, key) : std::vector<std::string>();
}

const toml::table* table_at(const toml::table& table, std::string_view key) {
    const toml::node* node = table.get(key);
    if (node == nullptr) return nullptr;
    if (!node->is_table()) misread(node->source(), std::string(key) + " must be a table");
    return node->as_table();
}

}  // namespace instruments
