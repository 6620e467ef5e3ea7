#include "repertoire/bar_stock.h"

#include <xxhash.h>

#include <algorithm>
#include <utility>

namespace repertoire {

std::vector<Figure> figures_of(const tune::Outline& outline) {
    const auto hash_of = [](const std::vector<std::int32_t>& shape) {
        return XXH3_64bits(shape.data(), shape.size() * sizeof(shape.front()));
    };
    std::vector<std::pair<Figure, Figure>> bars;  // as it stands, and in any key
    std::vector<std::int32_t> shape;
    for (std::size_t bar = 0; bar < outline.bars.size(); ++bar) {
        const std::size_t first = outline.bars[bar].first_note;
        const std::size_t end = outline.end_of(bar);
        if (outline.bars[bar].is_pickup || first == end) continue;
        shape.clear();
        for (std::size_t note = first; note < end; ++note) {
            shape.push_back(static_cast<std::int32_t>(outline.notes[note].at));
            shape.push_back(outline.notes[note].midi - outline.notes[first].midi);
        }
        const Figure figure = hash_of(shape);
        shape.push_back(outline.notes[first].midi);
        shape.push_back(static_cast<std::int32_t>(outline.bars[bar].length));
        bars.emplace_back(hash_of(shape), figure);
    }
    std::sort(bars.begin(), bars.end());
    bars.erase(std::unique(bars.begin(), bars.end()), bars.end());
    std::vector<Figure> figures;
    for (const auto& [as_it_stands, figure] : bars) figures.push_back(figure);
    std::sort(figures.begin(), figures.end());
    return figures;
}

int BarStock::count_known(std::span<const Figure> figures) const {
    return static_cast<int>(
        std::count_if(figures.begin(), figures.end(), [this](Figure figure) { return has(figure); }));
}

}  // namespace repertoire
