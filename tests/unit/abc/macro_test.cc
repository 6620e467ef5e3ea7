#include "abc/macro.h"

#include <catch2/catch.hpp>
#include <string>

namespace {

std::vector<abc::Macro> macros_of(std::initializer_list<const char*> fields) {
    std::vector<abc::Macro> macros;
    for (const char* field : fields) abc::set_macro(macros, abc::read_macro(field).value());
    return macros;
}

// The line after expansion, or `(same)`.
std::string expanded(std::string_view line, std::initializer_list<const char*> fields) {
    const auto result = abc::expand_macros(line, macros_of(fields));
    return result ? result->text : "(same)";
}

}  // namespace

TEST_CASE("macro: a static macro puts its text in place of the target", "[abc][macro]") {
    // Source: ABC standard 2.1, section 9.1.
    CHECK(expanded("~G3 c3", {"~G3 = G{A}G{F}G"}) == "G{A}G{F}G c3");
    CHECK(expanded("A2 ~a2|", {"~a2={b}a{g}a"}) == "A2 {b}a{g}a|");
    CHECK(expanded("abc", {"~G3 = G{A}G{F}G"}) == "(same)");
}

TEST_CASE("macro: octave and length of the target must match exactly", "[abc][macro]") {
    for (const char* line : {"~g3", "~G2", "~G", "~G3/2", "~G32", "~G,3", "~G/3", "~ G3"}) {
        CAPTURE(line);
        CHECK(expanded(line, {"~G3 = GAG"}) == "(same)");
    }
    CHECK(expanded("~G", {"~G = GAG"}) == "GAG");
    CHECK(expanded("~G'", {"~G = GAG"}) == "(same)");
}

TEST_CASE("macro: a transposing macro moves its letters with the note", "[abc][macro]") {
    // Source: ABC standard 2.1, section 9.2: n is the note found, o the step above, m the one below, h to z further
    // away.
    CHECK(expanded("~G2", {"~n2 = {o}n{m}n"}) == "{A}G{F}G");
    CHECK(expanded("~A2", {"~n2 = {o}n{m}n"}) == "{B}A{G}A");
    CHECK(expanded("~B2", {"~n2 = {o}n"}) == "{c}B");
    CHECK(expanded("~c2", {"~n2 = n{m}n"}) == "c{B}c");
    CHECK(expanded("~C2", {"~n2 = n{m}n"}) == "C{B,}C");
    CHECK(expanded("~b2", {"~n2 = {o}n"}) == "{c'}b");
    CHECK(expanded("~G,2", {"~n2 = {o}n"}) == "{A,}G,");
    CHECK(expanded("~d'2", {"~n2 = {o}n"}) == "{e'}d'");
    CHECK(expanded("~C2", {"~n2 = hz"}) == "D,a");  // six steps down, twelve up
    CHECK(expanded("~G3 ~G", {"~n2 = {o}n"}) == "(same)");
}

TEST_CASE("macro: every step of every note moves along the letters", "[abc][macro]") {
    // Written out from the bottom: C,, to c''.
    const std::string octaves[] = {"C,,", "C,", "C", "c", "c'", "c''"};
    std::vector<std::string> scale;
    for (const std::string& octave : octaves)
        for (const char letter : std::string("CDEFGAB")) {
            std::string note = octave;
            note[0] = octave[0] == 'C' ? letter : static_cast<char>(letter - 'A' + 'a');
            scale.push_back(note);
        }
    for (std::size_t place = 7; place + 14 < scale.size(); ++place)
        for (char step = 'h'; step <= 'z'; ++step) {
            const std::string macro = std::string("~n3 = ") + step;
            const auto to = static_cast<std::size_t>(static_cast<int>(place) + step - 'n');
            const auto result = abc::expand_macros("~" + scale[place] + "3", macros_of({macro.c_str()}));
            if (!result || result->text != scale[to]) FAIL(scale[place] << " by " << step);
        }
    SUCCEED();
}

TEST_CASE("macro: text in quotes and inline fields are left alone", "[abc][macro]") {
    CHECK(expanded("\"~G3\" ~G3", {"~G3 = GAG"}) == "\"~G3\" GAG");
    CHECK(expanded("[N:~G3]~G3", {"~G3 = GAG"}) == "[N:~G3]GAG");
}

TEST_CASE("macro: letters of decorations and chord symbols in a transposing replacement are text", "[abc][macro]") {
    CHECK(expanded("~G2", {"~n2 = !trill!n2"}) == "!trill!G2");
    CHECK(expanded("~G2", {"~n2 = \"no\"n2"}) == "\"no\"G2");
}

TEST_CASE("macro: a replacement is not searched again", "[abc][macro]") {
    CHECK(expanded("~G2", {"~G2 = A ~G2"}) == "A ~G2");
}

TEST_CASE("macro: the same target set again is replaced", "[abc][macro]") {
    CHECK(expanded("~G2", {"~G2 = A", "~G2 = B"}) == "B");
    CHECK(macros_of({"~G2 = A", "~A2 = B", "~G2 = C"}).size() == 2);
}

TEST_CASE("macro: every byte of an expansion knows where it came from", "[abc][macro]") {
    const auto result = abc::expand_macros("c ~G2 d", macros_of({"~G2 = GAG"}));
    REQUIRE(result);
    CHECK(result->text == "c GAG d");
    CHECK(result->places == std::vector<std::uint32_t>{0, 1, 2, 2, 2, 5, 6});
}

TEST_CASE("macro: the standard's limits are kept", "[abc][macro]") {
    // Source: ABC standard 2.1, section 9: targets up to 31 characters, replacements up to 200, n only as the last
    // letter.
    CHECK_FALSE(abc::read_macro("~G3"));
    CHECK_FALSE(abc::read_macro("= GAG"));
    CHECK_FALSE(abc::read_macro(""));
    CHECK(abc::read_macro(std::string(31, '~') + " = G"));
    CHECK_FALSE(abc::read_macro(std::string(32, '~') + " = G"));
    CHECK(abc::read_macro("~G = " + std::string(200, 'G')));
    CHECK_FALSE(abc::read_macro("~G = " + std::string(201, 'G')));
    CHECK_FALSE(abc::read_macro("~nG = G"));
    CHECK(abc::read_macro("~n3/2 = n"));
    CHECK(abc::read_macro("~n2 = n")->is_transposing());
    CHECK_FALSE(abc::read_macro("~G2 = n")->is_transposing());
    CHECK_FALSE(abc::read_macro("~G ="));
}
