// A document as HTML: well-formed, whatever stands in its texts, and nothing of them lost.
#include "report/writers/html.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>
#include <vector>

#include "music/note_expression.h"

using report::Cell;
using report::Document;
using report::Table;

namespace {

// A reader of the HTML written here, strict where browsers forgive: every tag is closed by its own, but those that the
// standard calls void; an ampersand begins a reference. Source: HTML Living Standard, sections 13.1.2 and 13.1.4.
struct HtmlPage {
    std::vector<std::string> tags;  // in order, as `td class="number"`
    std::string text;               // all of it, with a bar after every element
    std::string fault;              // empty: none
};

std::string element_of(const std::string& tag) { return tag.substr(0, tag.find(' ')); }

HtmlPage read_strictly(const std::string& html) {
    static const std::set<std::string> kVoid{"meta", "hr"};
    static const std::vector<std::pair<std::string, char>> kReferences{
        {"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}};
    HtmlPage result;
    std::vector<std::string> open;
    for (std::size_t at = 0; at < html.size();) {
        if (html[at] == '<') {
            const std::size_t end = html.find('>', at);
            if (end == std::string::npos) return {{}, {}, "a tag is not ended"};
            const std::string tag = html.substr(at + 1, end - at - 1);
            at = end + 1;
            if (tag == "!DOCTYPE html") continue;
            if (tag.starts_with("/")) {
                if (open.empty() || open.back() != tag.substr(1)) return {{}, {}, "closed out of order: " + tag};
                open.pop_back();
                result.text += '|';
            } else {
                result.tags.push_back(tag);
                if (!kVoid.contains(element_of(tag))) open.push_back(element_of(tag));
                if (tag == "style") at = html.find("</style>", at);  // another language
            }
        } else if (html[at] == '&') {
            bool is_known = false;
            for (const auto& [written, meant] : kReferences)
                if (html.compare(at, written.size(), written) == 0) {
                    result.text += meant;
                    at += written.size();
                    is_known = true;
                    break;
                }
            if (!is_known) return {{}, {}, "no reference: " + html.substr(at, 8)};
        } else {
            if (html[at] == '"' || html[at] == '\'' || html[at] == '>') result.fault = "not escaped";
            result.text += html[at++];
        }
    }
    if (!open.empty()) result.fault = "left open: " + open.back();
    return result;
}

std::size_t count_tags(const HtmlPage& page, const std::string& tag) {
    std::size_t times = 0;
    for (const std::string& each : page.tags) times += each == tag ? 1 : 0;
    return times;
}

Cell cell(const std::string& value) { return Cell(value); }

// What stands between the tags of the main part.
std::string body_of(const Document& document) {
    const std::string html = report::render_html(document);
    const std::size_t begin = html.find("<main>\n") + 7;
    return html.substr(begin, html.find("</main>") - begin);
}

}  // namespace

TEST_CASE("html: a page says what it is", "[report][html]") {
    std::string page = report::render_html({{report::Title{"Rain"}, report::Paragraph{"Wet."}}});
    const std::size_t style = page.find("<style>\n");
    REQUIRE(style != std::string::npos);
    page.erase(style, page.find("</style>\n") + 9 - style);
    CHECK(page ==
          "<!DOCTYPE html>\n"
          "<html lang=\"en\">\n"
          "<head>\n"
          "<meta charset=\"utf-8\">\n"
          "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
          "<meta name=\"viewport\" content=\"width=device-width\">\n"
          "<title>Rain</title>\n"
          "</head>\n"
          "<body>\n"
          "<main>\n"
          "<h1>Rain</h1>\n"
          "<p>Wet.</p>\n"
          "</main>\n"
          "</body>\n"
          "</html>\n");
    CHECK(report::render_html({{report::Heading{"First"}, report::Paragraph{"a"}, report::Heading{"Second"}}})
              .find("<title>First</title>") != std::string::npos);
    CHECK(report::render_html({{report::Paragraph{"a"}, report::Heading{"First"}}}).find("<title>gamut</title>") !=
          std::string::npos);
}

TEST_CASE("html: what follows a heading stands in its section", "[report][html]") {
    CHECK(body_of({{report::Title{"T"}, report::Paragraph{"0"}, report::Heading{"A"}, report::Paragraph{"1"},
                    report::Heading{"B"}, report::Break{}, report::Hint{"2"}, report::SectionEnd{},
                    report::Paragraph{"3"}}}) ==
          "<h1>T</h1>\n<p>0</p>\n"
          "<section>\n<h2>A</h2>\n<p>1</p>\n</section>\n"
          "<section>\n<h2>B</h2>\n<hr>\n<p class=\"hint\">2</p>\n</section>\n<p>3</p>\n");
}

TEST_CASE("html: every kind of cell", "[report][html]") {
    music::NoteSet notes;
    for (const int midi : {62, 66}) notes.add(midi);
    const Document document{
        {Table{{{"id"}, {""}, {"notes"}, {"at"}, {"day"}, {"share"}, {"tunes"}},
               {{Cell(std::int64_t{7}), Cell(), Cell(report::Notes{notes, 2}), Cell(report::Duration{65}),
                 Cell(base::read_date("2027-01-12")), Cell(report::Share{0.25}),
                 Cell(report::Items{{"Rain", "Soup & <Bread>"}})},
                {cell(""), cell("x"), Cell(report::Notes{notes, 0, true}), Cell(report::Duration{6000}), cell("y"),
                 Cell(report::Share{1}), Cell(report::Items{})}}}}};
    CHECK(body_of(document) ==
          "<table>\n<thead>\n<tr><th scope=\"col\">id</th><td></td><th scope=\"col\">notes</th>"
          "<th scope=\"col\">at</th><th scope=\"col\">day</th><th scope=\"col\">share</th>"
          "<th scope=\"col\">tunes</th></tr>\n</thead>\n<tbody>\n"
          "<tr><th scope=\"row\" class=\"number\">7</th><td class=\"unknown\">-</td><td class=\"notes\">D4 F#4</td>"
          "<td><time datetime=\"PT65S\">1:05</time></td><td><time datetime=\"2027-01-12\">2027-01-12</time></td>"
          "<td class=\"number\">25.0 %</td><td><ul><li>Rain</li><li>Soup &amp; &lt;Bread&gt;</li></ul></td></tr>\n"
          "<tr><td></td><td>x</td><td class=\"notes\">D F#</td><td><time datetime=\"PT6000S\">100:00</time></td>"
          "<td>y</td><td class=\"number\">100.0 %</td><td></td></tr>\n"
          "</tbody>\n</table>\n");
}

TEST_CASE("html: a cell over several rows is one cell", "[report][html]") {
    const Cell on = report::FromAbove{};
    CHECK(body_of({{Table{{{"set"}, {"tune"}, {"rhythm"}},
                          {{cell("0"), cell("z"), cell("air")},
                           {cell("1"), cell("a"), cell("reel")},
                           {on, cell("b"), on},
                           {on, cell("c"), cell("polka")},
                           {cell("2"), cell("d"), cell("jig")},
                           {cell("3"), cell("e"), cell("jig")},
                           {on, cell("f"), cell("jig")}}}}}) ==
          "<table>\n<thead>\n"
          "<tr><th scope=\"col\">set</th><th scope=\"col\">tune</th><th scope=\"col\">rhythm</th></tr>\n</thead>\n"
          "<tbody>\n"
          "<tr><th scope=\"row\">0</th><td>z</td><td>air</td></tr>\n"
          "</tbody>\n<tbody>\n"
          "<tr><th scope=\"rowgroup\" rowspan=\"3\">1</th><td>a</td><td rowspan=\"2\">reel</td></tr>\n"
          "<tr><td>b</td></tr>\n"
          "<tr><td>c</td><td>polka</td></tr>\n"
          "</tbody>\n<tbody>\n"
          "<tr><th scope=\"row\">2</th><td>d</td><td>jig</td></tr>\n"
          "</tbody>\n<tbody>\n"
          "<tr><th scope=\"rowgroup\" rowspan=\"2\">3</th><td>e</td><td>jig</td></tr>\n"
          "<tr><td>f</td><td>jig</td></tr>\n"
          "</tbody>\n</table>\n");
    // Nothing is above the first row.
    CHECK(body_of({{Table{{{"a"}}, {{on}, {on}}}}}) ==
          "<table>\n<thead>\n<tr><th scope=\"col\">a</th></tr>\n</thead>\n<tbody>\n"
          "<tr><td rowspan=\"2\"></td></tr>\n<tr></tr>\n</tbody>\n</table>\n");
}

TEST_CASE("html: music, examples, lists, particulars and bars", "[report][html]") {
    CHECK(
        body_of({{report::Music{"X:1\n\nK:D\n\"A\"D>E|\n"}, report::Example{"gamut path <x"},
                  report::List{{"one", "two"}, true}, report::List{{"o"}},
                  report::Remarks{{{"a.abc:1", {"<", "b"}}, {"c", {}}}}, report::Caution{"Rest."}, report::Line{"l"},
                  report::Particulars{{{"key", "A & B"}, {"", "C"}}}, report::Particulars{},
                  report::FingeredBars{true, {{"bar 1", {"D4", "E4"}, {"1", "<"}, "p "}}}, report::FingeredBars{}}}) ==
        "<pre class=\"abc\">\nX:1\n\nK:D\n&quot;A&quot;D&gt;E|\n</pre>\n"
        "<pre class=\"example\">\ngamut path &lt;x\n</pre>\n"
        "<ol>\n<li>one</li>\n<li>two</li>\n</ol>\n"
        "<ul>\n<li>o</li>\n</ul>\n"
        "<dl class=\"remarks\">\n<dt>a.abc:1</dt><dd>&lt;</dd><dd>b</dd>\n<dt>c</dt>\n</dl>\n"
        "<p class=\"caution\">Rest.</p>\n"
        "<p class=\"line\">l</p>\n"
        "<dl>\n<dt>key</dt><dd>A &amp; B</dd>\n<dd>C</dd>\n</dl>\n"
        "<figure class=\"bars\">\n<table>\n<caption>bar 1</caption>\n<tbody>\n"
        "<tr><th scope=\"row\">note</th><td>D4</td><td>E4</td></tr>\n"
        "<tr><th scope=\"row\">played</th><td>1</td><td>&lt;</td></tr>\n"
        "<tr><th scope=\"row\">air</th><td>p</td><td></td></tr>\n"
        "</tbody>\n</table>\n</figure>\n");
}

TEST_CASE("html: no text becomes a tag, and none is lost", "[report][html]") {
    const std::vector<std::string> hostile{"<script>alert('x')</script>",
                                           "</title><h1>",
                                           "a \"quoted\" & 'single' &amp; &#60;",
                                           "]]>--><!--",
                                           "&",
                                           "<",
                                           "</pre>",
                                           "\" onload=\"x",
                                           "\xC3\xA9\xE6\xBC\xA2",
                                           "plain"};
    unsigned state = 11;
    for (int round = 0; round < 500; ++round) {
        const auto next = [&] {
            state = state * 1103515245U + 12345U;
            return hostile[(state >> 16U) % hostile.size()];
        };
        std::vector<std::string> said;
        const auto say = [&] { return said.emplace_back(next()); };
        Document document;
        document.blocks.emplace_back(report::Title{say()});
        document.blocks.emplace_back(report::Heading{say()});
        document.blocks.emplace_back(report::Paragraph{say()});
        document.blocks.emplace_back(report::Hint{say()});
        document.blocks.emplace_back(report::Caution{say()});
        document.blocks.emplace_back(report::Line{say()});
        Table table;
        table.columns = {{say()}, {"b"}};
        table.rows.push_back({cell(say()), Cell(report::Items{{say(), say()}})});
        document.blocks.emplace_back(std::move(table));
        std::string label = say();
        document.blocks.emplace_back(report::Particulars{{{std::move(label), say()}}});
        document.blocks.emplace_back(report::List{{say()}});
        std::string place = say();
        document.blocks.emplace_back(report::Remarks{{{std::move(place), {say()}}}});
        document.blocks.emplace_back(report::Music{say() + "\n"});
        document.blocks.emplace_back(report::Example{say()});
        std::string name = say(), note = say();
        document.blocks.emplace_back(report::FingeredBars{false, {{name, {note}, {say()}, " "}}});
        const HtmlPage page = read_strictly(report::render_html(document));
        REQUIRE(page.fault.empty());
        CHECK(count_tags(page, "h1") == 1);
        CHECK(count_tags(page, "script") == 0);
        std::size_t from = page.text.find('|');  // after the title in the head
        for (const std::string& each : said) {
            from = page.text.find(each, from);
            INFO(each);
            REQUIRE(from != std::string::npos);
            from += each.size();
        }
    }
}

TEST_CASE("html: control characters and broken UTF-8 are made harmless", "[report][html]") {
    const std::string html = report::render_html(
        {{report::Title{"Rain\x1b[31m\nwet\xFF"}, report::Music{std::string("X:1\r\nT:\0a\n", 10)}}});
    CHECK(html.find("<h1>Rain [31m wet\xEF\xBF\xBD</h1>") != std::string::npos);
    CHECK(html.find("<pre class=\"abc\">\nX:1 \nT: a\n</pre>") != std::string::npos);
    for (const char c : html) CHECK((c == '\n' || static_cast<unsigned char>(c) >= 0x20));
}
