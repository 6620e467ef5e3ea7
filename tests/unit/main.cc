// The entry of the unit tests; Catch2 writes it.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"  // false alarm of g++ 12 on <regex> with the address sanitizer
#endif
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
