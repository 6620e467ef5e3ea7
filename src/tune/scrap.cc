#include "tune/scrap.h"

namespace tune {

std::string_view scrap_token(Scrap scrap) noexcept {
    switch (scrap) {
        case Scrap::few_bars:
            return "few-bars";
        case Scrap::breaks_off:
            return "breaks-off";
        case Scrap::title:
            return "title";
    }
    return "title";
}

std::optional<Scrap> parse_scrap(std::string_view token) noexcept {
    for (const Scrap scrap : kScraps)
        if (scrap_token(scrap) == token) return scrap;
    return std::nullopt;
}

std::string_view scrap_in_words(Scrap scrap) noexcept {
    switch (scrap) {
        case Scrap::few_bars:
            return "it has fewer than eight bars";
        case Scrap::breaks_off:
            return "it breaks off";
        case Scrap::title:
            return "its title is none, or that of a part";
    }
    return "";
}

}  // namespace tune
