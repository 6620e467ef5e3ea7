// From which likeness two settings are called one tune.
#pragma once

namespace tune {

// A likeness is 0 to 1. From the first on two settings are probably one tune, from the second on perhaps; what is less
// alike is told only when it is asked for. Source: house choice; tests/alike/README.md tells what a reader says of
// pairs from there on.
constexpr double kProbableKin = 0.85;
constexpr double kPossibleKin = 0.60;

}  // namespace tune
