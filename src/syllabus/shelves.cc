#include "syllabus/shelves.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace syllabus {

namespace {

bool costs_same(const Piece& a, const Piece& b) {
    return a.promised == b.promised && a.asked_for == b.asked_for && a.hardness == b.hardness;
}

std::size_t alike_from(const Frame& frame, const std::vector<std::size_t>& pieces, std::size_t enough) {
    if (pieces.size() < enough) return pieces.size();
    std::size_t from = pieces.size() - 1;
    while (from > 0 && costs_same(frame.pieces[pieces[from - 1]], frame.pieces[pieces.back()])) --from;
    return from;
}

}  // namespace

Shelves::Shelves(const Frame& frame) {
    std::size_t enough = 0;
    for (const Place& place : frame.places) enough += static_cast<std::size_t>(place.new_tunes);
    const auto is_beginning = [&](std::size_t piece) {
        return std::find(frame.begin.begin(), frame.begin.end(), piece) != frame.begin.end();
    };
    std::map<std::tuple<std::size_t, Use, std::optional<int>>, std::vector<std::size_t>> groups;
    for (std::size_t at = 0; at < frame.pieces.size(); ++at) {
        const Piece& piece = frame.pieces[at];
        if (piece.opens > frame.steps && !piece.is_must && !is_beginning(at)) continue;
        if (piece.is_must || is_beginning(at))
            shelves_.push_back({piece.opens, piece.use, piece.rhythm, piece.is_must, piece.must_by, {at}, 1});
        else
            groups[{piece.opens, piece.use, piece.rhythm}].push_back(at);
    }
    for (auto& [key, pieces] : groups) {
        std::stable_sort(pieces.begin(), pieces.end(), [&](std::size_t a, std::size_t b) {
            const Piece& one = frame.pieces[a];
            const Piece& other = frame.pieces[b];
            return std::tuple(-one.costs_left_behind(), -one.asked_for, one.hardness) <
                   std::tuple(-other.costs_left_behind(), -other.asked_for, other.hardness);
        });
        // What stands behind as many as there are places is never reached.
        if (pieces.size() > enough) pieces.resize(std::max<std::size_t>(enough, 1));
        Shelf shelf{std::get<0>(key), std::get<1>(key), std::get<2>(key), false, std::nullopt, pieces, 0};
        shelf.alike_from = alike_from(frame, shelf.pieces, enough);
        shelves_.push_back(std::move(shelf));
    }
    for (const std::size_t piece : frame.begin)
        for (std::size_t at = 0; at < shelves_.size(); ++at)
            if (shelves_[at].pieces.front() == piece) beginnings_.push_back(at);
    for (std::size_t at = 0; at < shelves_.size(); ++at)
        if (shelves_[at].is_must) musts_.push_back(at);
    const auto by = [&](std::size_t shelf) { return shelves_[shelf].must_by.value_or(frame.places.size()); };
    std::stable_sort(musts_.begin(), musts_.end(), [&](std::size_t a, std::size_t b) { return by(a) < by(b); });
}

}  // namespace syllabus
