#include "repertoire/bar_stock.h"

#include <xxhash.h>

#include <algorithm>

namespace repertoire {

std::vector<Figure> figures_of(const tune::Outline& outline) {
    std::vector<Figure> figures;
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
        figures.push_back(XXH3_64bits(shape.data(), shape.size() * sizeof(shape.front())));
    }
    std::sort(figures.begin(), figures.end());
    figures.erase(std::unique(figures.begin(), figures.end()), figures.end());
    return figures;
}

int BarStock::count_known(std::span<const Figure> figures) const {
    return static_cast<int>(
        std::count_if(figures.begin(), figures.end(), [this](Figure figure) { return has(figure); }));
}

}  // namespace repertoire
