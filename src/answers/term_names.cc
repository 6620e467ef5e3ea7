// Tested by term_names_test.cc.
#include "answers/term_names.h"

#include <cctype>
#include <functional>
#include <variant>

#include "answers/stored_request.h"
#include "answers/term_request.h"
#include "syllabus/stored_syllabus.h"

namespace answers {

namespace {

// The name as it is shown, wherever it stands as a word of its own.
void rename_in(std::string& sentence, const std::string& from, const std::string& to) {
    const auto is_of_word = [](char c) { return (c & 0x80) != 0 || std::isalnum(static_cast<unsigned char>(c)) != 0; };
    for (std::size_t at = sentence.find(from); at != std::string::npos; at = sentence.find(from, at)) {
        const std::size_t end = at + from.size();
        const bool is_word =
            (at == 0 || !is_of_word(sentence[at - 1])) && (end == sentence.size() || !is_of_word(sentence[end]));
        if (is_word) sentence.replace(at, from.size(), to);
        at += is_word ? to.size() : 1;
    }
}

void rename_in(syllabus::Telling& telling, const tune::PlayerName& from, const std::string& to) {
    if (auto* told = std::get_if<syllabus::InWords>(&telling)) rename_in(told->sentence, from.text, to);
    if (auto* known = std::get_if<syllabus::KnownToSome>(&telling))
        for (std::string& player : known->players)
            if (tune::fold_player_name(player) == from.folded) player = to;
}

std::string rewritten(const std::string& text, const tune::PlayerName& from, const std::string& to,
                      const std::function<TermRequest(TermRequest)>& asked) {
    try {
        syllabus::Syllabus before = syllabus::read_stored(text);
        before.asked = write_request(read_request(before.asked));  // one kept as words says no more
        syllabus::Syllabus plan = before;
        plan.asked = write_request(asked(read_request(plan.asked)));
        for (syllabus::Lesson& lesson : plan.lessons) {
            if (!lesson.notes) continue;
            for (std::string& learner : lesson.notes->learners)
                if (tune::fold_player_name(learner) == from.folded) learner = to;
        }
        for (auto* tellings : {&plan.unmet, &plan.remarks})
            for (syllabus::Telling& telling : *tellings) rename_in(telling, from, to);
        return plan == before ? text : syllabus::write_stored(plan);
    } catch (const syllabus::StoredFault&) {
        return text;  // gamut syllabus tells
    }
}

}  // namespace

std::string renamed_in_term(const std::string& text, const tune::PlayerName& from, const std::string& to) {
    return rewritten(text, from, to, [&](TermRequest request) { return with_renamed(std::move(request), from, to); });
}

std::string unnamed_in_term(const std::string& text, const tune::PlayerName& name) {
    return rewritten(text, name, std::string(kRemovedPlayer),
                     [&](TermRequest request) { return with_unnamed(std::move(request), name); });
}

}  // namespace answers
