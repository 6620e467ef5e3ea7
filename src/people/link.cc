// Tested by link_test.cc.
#include "people/link.h"

#include <xxhash.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <tuple>

namespace people {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kJournalVersion = 1;

std::string checksum(std::string_view bytes) {
    XXH128_canonical_t canonical;
    XXH128_canonicalFromHash(&canonical, XXH3_128bits(bytes.data(), bytes.size()));
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string text;
    for (const unsigned char byte : canonical.digest) (text += kDigits[byte >> 4]) += kDigits[byte & 15];
    return text;
}

// What is wrong with one link by itself.
std::optional<std::string> fault_in(const Link& link, const std::set<Seal>& erased) {
    if (link.seal != seal_of(link.before, link.clock, link.words_seal)) return "it is not as it was sealed";
    if (!link.words) {
        if (erased.contains(link.seal)) return std::nullopt;
        return "its words are gone, and nobody erased them";
    }
    if (link.words_seal != seal_of_words(*link.words)) return "its words are not those that were sealed";
    try {
        read_saying(*link.words);
    } catch (const SayingFault& fault) {
        return std::string("its words cannot be read: ") + fault.what();
    }
    return std::nullopt;
}

Link read_link(std::string_view line) {
    const Json json = Json::parse(line, nullptr, false);
    if (!json.is_object()) throw SayingFault("it is no JSON object");
    const auto text = [&](const char* name) -> std::optional<std::string> {
        const auto found = json.find(name);
        if (found == json.end()) return std::nullopt;
        if (!found->is_string()) throw SayingFault("\"" + std::string(name) + "\" is no text");
        return found->get<std::string>();
    };
    Link link;
    link.seal = text("seal").value_or("");
    link.before = text("before");
    const auto clock = json.find("clock");
    if (clock == json.end() || !clock->is_number_unsigned() || clock->get<std::uint64_t>() > INT64_MAX)
        throw SayingFault("\"clock\" is no number from 1");
    link.clock = clock->get<std::int64_t>();
    if (const auto words = json.find("words"); words != json.end()) {
        link.words = words->dump(-1, ' ', false, Json::error_handler_t::replace);
        link.words_seal = seal_of_words(*link.words);
        read_saying(*link.words);
    } else {
        link.words_seal = text("words_seal").value_or("");
    }
    if (link.seal != seal_of(link.before, link.clock, link.words_seal)) throw SayingFault("it is not as it was sealed");
    return link;
}

}  // namespace

bool comes_before(const Link& one, const Link& other) noexcept {
    return std::tie(one.clock, one.seal) < std::tie(other.clock, other.seal);
}

std::string seal_of_words(std::string_view words) { return checksum(words); }

Seal seal_of(const std::optional<Seal>& before, std::int64_t clock, std::string_view words_seal) {
    return checksum(before.value_or("") + " " + std::to_string(clock) + " " + std::string(words_seal));
}

Link link_of(std::optional<Seal> before, std::int64_t clock, std::string words) {
    Link link{{}, std::move(before), clock, seal_of_words(words), std::move(words)};
    link.seal = seal_of(link.before, link.clock, link.words_seal);
    return link;
}

std::vector<Seal> erased_in(std::span<const Link> links) {
    std::vector<Seal> erased;
    for (const Link& link : links) {
        // Read whole only where it can be one: few are.
        if (!link.words || link.words->find("\"said\":\"erased\"") == std::string::npos) continue;
        try {
            const Saying saying = read_saying(*link.words);
            if (const auto* words = std::get_if<Erased>(&saying.words))
                erased.insert(erased.end(), words->sayings.begin(), words->sayings.end());
        } catch (const SayingFault&) {  // told by faults_of
        }
    }
    return erased;
}

std::vector<LinkFault> faults_of(std::span<const Link> links) {
    const std::vector<Seal> declared = erased_in(links);
    const std::set<Seal> erased(declared.begin(), declared.end());
    std::set<Seal> seals;
    for (const Link& link : links) seals.insert(link.seal);
    std::vector<LinkFault> faults;
    for (const Link& link : links) {
        if (const auto fault = fault_in(link, erased)) faults.push_back({link.seal, *fault});
        if (link.before && !seals.contains(*link.before))
            faults.push_back({link.seal, "what was said before it is missing"});
    }
    return faults;
}

std::vector<Link> union_of(std::span<const Link> ours, std::span<const Link> theirs) {
    std::map<Seal, Link> links;
    for (const auto& side : {ours, theirs})
        for (const Link& link : side) {
            const auto [at, is_new] = links.try_emplace(link.seal, link);
            if (!is_new && !at->second.words) at->second.words = link.words;
        }
    std::vector<Link> all;
    for (auto& [seal, link] : links) all.push_back(std::move(link));
    const std::vector<Seal> declared = erased_in(all);
    const std::set<Seal> erased(declared.begin(), declared.end());
    for (Link& link : all)
        if (erased.contains(link.seal)) link.words.reset();
    std::sort(all.begin(), all.end(), comes_before);
    return all;
}

std::string write_journal(std::span<const Link> in_order) {
    std::string text = Json{{"gamut_journal", kJournalVersion}}.dump() + "\n";
    for (const Link& link : in_order) {
        text += "{\"seal\":\"" + link.seal + "\"";
        if (link.before) text += ",\"before\":\"" + *link.before + "\"";
        text += ",\"clock\":" + std::to_string(link.clock);
        text += link.words ? ",\"words\":" + *link.words : ",\"words_seal\":\"" + link.words_seal + "\"";
        text += "}\n";
    }
    return text;
}

std::vector<Link> read_journal(std::string_view text) {
    if (text.empty()) throw SayingFault("line 1: it is no journal of gamut");
    std::vector<Link> links;
    for (std::size_t number = 1; !text.empty(); ++number) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (number == 1) {
            const Json head = Json::parse(line, nullptr, false);
            const auto version = head.is_object() ? head.find("gamut_journal") : head.end();
            if (!head.is_object() || version == head.end() || !version->is_number_integer())
                throw SayingFault("line 1: it is no journal of gamut");
            if (version->get<std::int64_t>() != kJournalVersion)
                throw SayingFault("line 1: the journal was written by a newer gamut");
            continue;
        }
        if (line.empty()) continue;
        try {
            links.push_back(read_link(line));
        } catch (const SayingFault& fault) {
            throw SayingFault("line " + std::to_string(number) + ": " + fault.what());
        }
    }
    return links;
}

}  // namespace people
