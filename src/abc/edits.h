// Places of a text to be replaced, gathered first and made in one pass.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/span.h"

namespace abc {

class Edits {
public:
    // Places must not overlap. Two at one empty place are written in the order they came.
    void replace(base::Span where, std::string text) { edits_.push_back({where, std::move(text)}); }
    void forget_after(std::size_t count) { edits_.resize(std::min(count, edits_.size())); }
    std::size_t size() const noexcept { return edits_.size(); }

    std::string applied_to(std::string_view text) const {
        std::vector<Edit> in_order = edits_;
        std::stable_sort(in_order.begin(), in_order.end(),
                         [](const Edit& a, const Edit& b) { return a.where.begin < b.where.begin; });
        std::string result;
        std::size_t at = 0;
        for (const Edit& edit : in_order) {
            result.append(text, at, edit.where.begin - at);
            result += edit.text;
            at = edit.where.end;
        }
        return result.append(text, at);
    }

private:
    struct Edit {
        base::Span where;
        std::string text;
    };
    std::vector<Edit> edits_;
};

}  // namespace abc
