#include "planner/plan.h"

namespace planner {

std::string_view proof_token(Proof proof) noexcept {
    switch (proof) {
        case Proof::optimal:
            return "optimal";
        case Proof::gap:
            return "gap";
    }
    return "gap";
}

}  // namespace planner
