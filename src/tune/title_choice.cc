#include "tune/title_choice.h"

#include <algorithm>
#include <charconv>

namespace tune {

namespace {

constexpr std::string_view kPartings = " \t,;\r\n";

struct Answer {
    std::size_t question;
    TuneId tune;
};

std::optional<std::int64_t> number_in(std::string_view word) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
    return error == std::errc() && end == word.data() + word.size() ? std::optional(number) : std::nullopt;
}

std::optional<std::size_t> letter_in(std::string_view word) {
    if (word.size() != 1) return std::nullopt;
    const char c = word.front();
    if (c >= 'a' && c <= 'z') return static_cast<std::size_t>(c - 'a');
    if (c >= 'A' && c <= 'Z') return static_cast<std::size_t>(c - 'A');
    return std::nullopt;
}

class Reading {
public:
    explicit Reading(const std::vector<TitleMatch>& questions) : questions_(questions) {
        choice_.chosen.resize(questions.size());
    }

    void take(const std::string& written, const std::optional<Answer>& answer) {
        if (!answer) {
            choice_.not_understood.push_back(written);
            return;
        }
        std::optional<TuneId>& chosen = choice_.chosen[answer->question];
        if (!chosen)
            chosen = answer->tune;
        else if (*chosen != answer->tune)
            choice_.second.push_back(written);
    }

    // `1`, `a`; the question may be left out where there is one.
    std::optional<Answer> by_letter(std::string_view question, std::string_view letter) const {
        const auto number = question.empty() && questions_.size() == 1 ? 1 : number_in(question).value_or(0);
        const auto place = letter_in(letter);
        if (!place || number < 1 || number > static_cast<std::int64_t>(questions_.size())) return std::nullopt;
        const auto at = static_cast<std::size_t>(number - 1);
        if (*place >= questions_[at].candidates.size()) return std::nullopt;
        return Answer{at, questions_[at].candidates[*place].id};
    }

    std::optional<Answer> by_id(std::string_view word) const {
        const auto id = number_in(word);
        if (!id) return std::nullopt;
        std::optional<Answer> answered;
        for (std::size_t at = 0; at < questions_.size(); ++at) {
            const std::vector<TitleCandidate>& candidates = questions_[at].candidates;
            if (std::none_of(candidates.begin(), candidates.end(),
                             [&](const TitleCandidate& candidate) { return candidate.id.value == *id; }))
                continue;
            if (!choice_.chosen[at]) return Answer{at, {*id}};
            if (!answered) answered = Answer{at, {*id}};
        }
        return answered;
    }

    TitleChoice done() && { return std::move(choice_); }

private:
    const std::vector<TitleMatch>& questions_;
    TitleChoice choice_;
};

std::vector<std::string_view> words_in(std::string_view answer) {
    std::vector<std::string_view> words;
    for (std::size_t at = answer.find_first_not_of(kPartings); at != std::string_view::npos;
         at = answer.find_first_not_of(kPartings, at)) {
        const std::size_t end = std::min(answer.find_first_of(kPartings, at), answer.size());
        words.push_back(answer.substr(at, end - at));
        at = end;
    }
    return words;
}

}  // namespace

TitleChoice read_title_choice(std::string_view answer, const std::vector<TitleMatch>& questions) {
    Reading reading(questions);
    const std::vector<std::string_view> words = words_in(answer);
    for (std::size_t at = 0; at < words.size(); ++at) {
        const std::string_view word = words[at];
        const std::string_view next = at + 1 < words.size() ? words[at + 1] : std::string_view();
        if (number_in(word) && letter_in(next)) {
            reading.take(std::string(word) + " " + std::string(next), reading.by_letter(word, next));
            ++at;
        } else if (number_in(word)) {
            reading.take(std::string(word), reading.by_id(word));
        } else {
            reading.take(std::string(word),
                         reading.by_letter(word.substr(0, word.size() - 1), word.substr(word.size() - 1)));
        }
    }
    return std::move(reading).done();
}

std::string example_of_choice(const std::vector<TitleMatch>& questions) {
    const auto last_letter = [](const TitleMatch& question) {
        return std::string(1, static_cast<char>('a' + std::min<std::size_t>(question.candidates.size(), 2) - 1));
    };
    return questions.size() == 1 ? last_letter(questions.front()) : "1a 2" + last_letter(questions[1]);
}

}  // namespace tune
