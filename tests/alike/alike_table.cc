// How well tunes that are one are known for it, and how well a tune is found by ear, on published books.
//
//     alike_table --families        pairs of one title or number; variations made by rule; time
//     alike_table --by-ear          phrases of 8, 12 and 16 notes with notes wrong, among all the books
//     alike_table --families --titles    and the pairs of different titles that are told as probable
//     alike_table --check           both, on fewer tunes, with floors; exit 1 where one is not reached
//
// Nothing is fitted to what support/books.h holds out; figures for that stand beside the others. Exit 77 when the books
// are not there.
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "alike/by_ear.h"
#include "alike/families.h"
#include "support/books.h"

int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    const auto is_given = [&](const char* word) { return std::find(words.begin(), words.end(), word) != words.end(); };
    const auto shared = support::find_shared();
    if (!shared) {
        std::printf("the books are not there\n");
        return support::kSkipped;
    }
    const std::vector<support::BookTune> tunes = support::read_books(*shared);
    const bool checks = is_given("--check");
    bool is_good = true;
    if (checks || is_given("--families")) is_good = alike::measure_families(tunes, checks, is_given("--titles"));
    if (checks || is_given("--by-ear")) is_good = alike::measure_by_ear(tunes, checks) && is_good;
    return is_good || !checks ? 0 : 1;
}
