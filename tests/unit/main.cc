// The entry of the unit tests; Catch2 writes it.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
