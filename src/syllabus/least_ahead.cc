#include "syllabus/least_ahead.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace syllabus {

std::vector<Moment> moments_of(const Frame& frame) {
    std::vector<Moment> moments;
    for (std::size_t lesson = 0; lesson < frame.places.size(); ++lesson) {
        moments.push_back({Moment::Kind::opens, lesson});
        for (int tune = 0; tune < frame.places[lesson].new_tunes; ++tune)
            moments.push_back({Moment::Kind::takes_tune, lesson});
        moments.push_back({Moment::Kind::closes, lesson});
    }
    return moments;
}

LeastAhead::LeastAhead(const Frame& frame, const Shelves& shelves, const std::vector<Moment>& moments)
    : frame_(frame), moments_(moments) {
    int highest = frame.before.rhythm.value_or(-1);
    for (const Piece& piece : frame.pieces) highest = std::max(highest, piece.rhythm.value_or(-1));
    rhythms_ = static_cast<std::uint64_t>(highest + 2);
    users_.assign(frame.steps + 1, 0);
    for (const Shelf& shelf : shelves.all())
        if (shelf.opens <= frame.steps && shelf.use != Use::none) users_[shelf.opens] += shelf.pieces.size();
    for (std::size_t step = 0; step <= frame.steps; ++step) {
        std::map<std::tuple<std::optional<int>, Use>, Offer> best;
        for (const Shelf& shelf : shelves.all()) {
            if (shelf.opens > step) continue;
            const Use use = shelf.opens == step ? shelf.use : Use::none;
            // Any piece of the shelf may be the cheapest here: those in front are there for what was promised.
            for (const std::size_t at : shelf.pieces) {
                const Piece& piece = frame.pieces[at];
                const Offer offered{shelf.rhythm, use, piece.asked_for, piece.hardness};
                Offer& offer = best.try_emplace({shelf.rhythm, use}, offered).first->second;
                if (std::tuple(-offered.asked_for, offered.hardness) < std::tuple(-offer.asked_for, offer.hardness))
                    offer = offered;
            }
        }
        offers_.emplace_back();
        for (const auto& [key, offer] : best) offers_.back().push_back(offer);
    }
}

const Cost& LeastAhead::from(std::size_t moment, const Progress& progress) {
    std::uint64_t key = moment;
    const auto add = [&key](std::uint64_t value, std::uint64_t values) { key = key * values + value; };
    add(progress.step(), frame_.steps + 1);
    add(static_cast<std::uint64_t>(progress.since()), static_cast<std::uint64_t>(frame_.notes_every) + 1);
    add(static_cast<std::uint64_t>(progress.tunes_since()), kTunesPerNote + 1);
    add(static_cast<std::uint64_t>(progress.rhythm() ? *progress.rhythm() + 1 : 0), rhythms_);
    add(static_cast<std::uint64_t>(progress.run()), kLongestRun + 1);
    add(progress.is_alone() ? 1 : 0, 2);
    if (const auto found = known_.find(key); found != known_.end()) return found->second;
    const Cost cost = least(moment, progress);
    return known_.emplace(key, cost).first->second;
}

Cost LeastAhead::least(std::size_t moment, const Progress& progress) {
    if (moment == moments_.size()) return progress.end_term(frame_);
    const auto [kind, lesson] = moments_[moment];
    if (kind == Moment::Kind::closes) {
        Progress next = progress;
        const Cost cost = next.end_lesson(frame_);
        return cost + from(moment + 1, next);
    }
    Cost best = from(moment + 1, progress);
    if (kind == Moment::Kind::opens) {
        if (!progress.may_bring(frame_, frame_.places[lesson])) return best;
        Progress next = progress;
        const Cost cost = next.bring_step(lesson);
        return std::min(best, cost + from(moment + 1, next));
    }
    best += progress.leave_empty();
    // Those that came before the first step are not among the pieces.
    const bool has_user = progress.step() == 0 || progress.tunes_since() >= kTunesPerNote ||
                          static_cast<std::size_t>(progress.tunes_since()) < users_[progress.step()];
    for (const Offer& offer : offers_[progress.step()]) {
        if (offer.use != Use::none && !has_user) continue;
        Progress next = progress;
        const Cost cost = next.teach(lesson, next.step(), offer.use, offer.rhythm, offer.asked_for, offer.hardness);
        best = std::min(best, cost + from(moment + 1, next));
    }
    return best;
}

}  // namespace syllabus
