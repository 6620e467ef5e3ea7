// `gamut guide`: the pages of src/guide.
#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/nearest_word.h"
#include "cli/terminal.h"
#include "guide/markdown.h"
#include "guide/pages.h"
#include "report/pages/program_page.h"

namespace cli {

namespace {

report::Document list_of_topics() {
    report::Table table;
    table.columns = {{"topic"}, {"what you want to know", report::Fit::wrapped, 20}};
    for (const guide::Page& page : guide::pages())
        table.rows.push_back({std::string(page.topic), std::string(page.question)});
    report::Document list;
    list.blocks = {report::Title{"The guide", true}, std::move(table), report::Break{},
                   report::Hint{"gamut guide TOPIC shows a page; gamut COMMAND --help tells every option."}};
    return list;
}

std::size_t times_in(std::string_view text, const std::string& words) {
    std::size_t times = 0;
    for (std::size_t at = text.find(words); at != std::string_view::npos; at = text.find(words, at + 1)) ++times;
    return times;
}

// The topic whose page has most to say of a command.
std::optional<std::string> topic_about(const std::string& command) {
    std::optional<std::string> topic;
    std::size_t most = 0;
    for (const guide::Page& page : guide::pages()) {
        const std::size_t times = times_in(page.markdown, "gamut " + command + " ");
        if (times <= most) continue;
        most = times;
        topic = page.topic;
    }
    return topic;
}

// The nearest by spelling, of the topics or of the commands.
std::optional<std::string> topic_meant(const std::string& written, const CLI::App& program) {
    std::vector<std::string> topics, commands;
    for (const guide::Page& page : guide::pages()) topics.emplace_back(page.topic);
    for (const CLI::App* command : program.get_subcommands([](const CLI::App*) { return true; }))
        commands.push_back(command->get_name());
    if (const std::optional<std::string> topic = nearest_word(topics, written)) return topic;
    const std::optional<std::string> command = nearest_word(commands, written);
    return command ? topic_about(*command) : std::nullopt;
}

const guide::Page& page_named(const std::string& written, const CLI::App& program) {
    const std::string topic = base::fold(written);
    for (const guide::Page& page : guide::pages())
        if (page.topic == topic) return page;
    throw Misuse("the guide has no page \"" + written + "\"" + hint(topic_meant(topic, program)) +
                 "; gamut guide lists them");
}

report::GuideTopic topic_of(const guide::Page& page) {
    return {std::string(page.topic), std::string(page.question), std::string(page.markdown)};
}

std::string topics_as_json() {
    std::vector<report::GuideTopic> topics;
    for (const guide::Page& page : guide::pages()) topics.push_back(topic_of(page));
    return report::as_json(topics);
}

class GuideCommand : public Command {
public:
    void add_to(CLI::App& command) override {
        program_ = command.get_parent();
        command.add_option("TOPIC", topic_, "the page; without it, all there are");
        CLI::Option* json =
            command.add_flag("--json", format_.json, "as JSON, for a program; a page as Markdown in it");
        command.add_flag("--html", format_.html, "as a page of HTML, for a browser")->excludes(json);
        command.footer("Example:  gamut guide term");
    }

    int run() override {
        if (format_.json) {
            write_answer(topic_ ? report::as_json(topic_of(page_named(*topic_, *program_))) : topics_as_json());
            return kDone;
        }
        write_document(format_,
                       topic_ ? guide::document_of(page_named(*topic_, *program_).markdown) : list_of_topics());
        return kDone;
    }

private:
    const CLI::App* program_ = nullptr;
    std::optional<std::string> topic_;
    Format format_;
};

}  // namespace

std::unique_ptr<Command> guide_command() { return std::make_unique<GuideCommand>(); }

}  // namespace cli
