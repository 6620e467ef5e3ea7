// Tested by the golden cases of tests/golden/next.
#include "report/pages/review_page.h"

#include <fmt/format.h>

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

using repertoire::Review;

std::string days_in_words(int days) { return counted(days, "day", "days"); }

std::string why_in_words(const Review& review) {
    if (review.is_shaky) return "did not hold last time";
    if (review.is_rusty)
        return review.days_since >= repertoire::kRustyAfterDays
                   ? fmt::format("rusty: {} unplayed", days_in_words(review.days_since))
                   : "rusty";
    return fmt::format("{} ago, due after {}", days_in_words(review.days_since), repertoire::kReviewGaps[review.gap]);
}

// `1, 3, 7, 14, 30 and 75 days`.
std::string gaps_in_words() {
    std::string words;
    for (std::size_t at = 0; at < repertoire::kReviewGaps.size(); ++at)
        words += (at == 0                                    ? ""
                  : at + 1 == repertoire::kReviewGaps.size() ? " and "
                                                             : ", ") +
                 std::to_string(repertoire::kReviewGaps[at]);
    return words + " days";
}

}  // namespace

Document describe(const answers::ReviewsAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{fmt::format("{}: to play again, {}", page.player, base::in_words(page.today))});
    if (page.rows.empty()) {
        std::string sentence = "Nothing is due.";
        if (!page.has_tunes)
            sentence = fmt::format("There is nothing to keep yet; gamut player tune \"{}\" known TITLES says what is.",
                                   page.player);
        for (const answers::ReviewedTune& row : page.next)
            sentence += fmt::format(" The next is {} ({}), {}.", title_of(row.record), row.record.id.value,
                                    base::in_words(row.review.due));
        document.blocks.emplace_back(Paragraph{sentence});
        return document;
    }
    Table table{{{"id"}, {"title", Fit::wrapped, 16}, {"rhythm"}, {"last"}, {"why", Fit::wrapped, 24}}, {}};
    for (const answers::ReviewedTune& row : page.rows)
        table.rows.push_back({Cell(row.record.id.value), Cell(title_of(row.record)),
                              row.record.rhythm ? Cell(row.record.rhythm->value) : Cell(), Cell(row.review.last),
                              Cell(why_in_words(row.review))});
    document.blocks.emplace_back(std::move(table));
    if (page.due > page.rows.size())
        document.blocks.emplace_back(Hint{fmt::format(
            "{} due; --limit N shows more.",
            counted(static_cast<std::int64_t>(page.due - page.rows.size()), "more tune is", "more tunes are"))});
    document.blocks.emplace_back(Paragraph{fmt::format(
        "Gaps of {}, a rule of thumb: the next one each time it goes well, the first again when it does not. gamut "
        "player played \"{}\" \"TITLES\" keeps it up to date.",
        gaps_in_words(), page.player)});
    return document;
}

Document tabulate(const answers::ReviewsAnswer& page) {
    Table table;
    for (const char* title : {"place", "id", "title", "last", "days_since", "gap", "due", "shaky", "rusty"})
        table.columns.push_back({title});
    std::int64_t place = 0;
    for (const answers::ReviewedTune& row : page.rows)
        table.rows.push_back({Cell(++place), Cell(row.record.id.value),
                              row.record.titles.empty() ? Cell() : Cell(row.record.titles.front()),
                              Cell(row.review.last), Cell(std::int64_t{row.review.days_since}),
                              Cell(std::int64_t{repertoire::kReviewGaps[row.review.gap]}), Cell(row.review.due),
                              Cell(std::int64_t{row.review.is_shaky}), Cell(std::int64_t{row.review.is_rusty})});
    return {{std::move(table)}};
}

std::string as_json(const answers::ReviewsAnswer& page) {
    const auto row_of = [](const answers::ReviewedTune& row) {
        Json json;
        json["id"] = row.record.id.value;
        json["title"] = row.record.titles.empty() ? Json(nullptr) : Json(row.record.titles.front());
        json["last"] = base::to_string(row.review.last);
        json["days_since"] = row.review.days_since;
        json["gap"] = repertoire::kReviewGaps[row.review.gap];
        json["due"] = base::to_string(row.review.due);
        json["shaky"] = row.review.is_shaky;
        json["rusty"] = row.review.is_rusty;
        return json;
    };
    Json json;
    json["version"] = 1;
    json["player"] = page.player;
    json["today"] = base::to_string(page.today);
    json["gaps"] = repertoire::kReviewGaps;
    json["due"] = page.due;
    json["tunes"] = Json::array();
    for (const answers::ReviewedTune& row : page.rows) json["tunes"].push_back(row_of(row));
    json["next"] = page.next.empty() ? Json(nullptr) : row_of(page.next.front());
    return finish(json);
}

}  // namespace report
