#include "tune/finding.h"

namespace tune {

std::string_view basis_token(Basis basis) noexcept {
    switch (basis) {
        case Basis::stated:
            return "stated";
        case Basis::computed:
            return "computed";
        case Basis::assumed:
            return "assumed";
        case Basis::title:
            return "title";
        case Basis::said:
            return "said";
    }
    return "assumed";
}

std::optional<Basis> parse_basis(std::string_view token) noexcept {
    for (const Basis basis : {Basis::stated, Basis::computed, Basis::assumed, Basis::title, Basis::said})
        if (basis_token(basis) == token) return basis;
    return std::nullopt;
}

bool is_guess(Basis basis) noexcept { return basis == Basis::computed || basis == Basis::assumed; }

}  // namespace tune
