// Tested by tests/golden/program/json.test and tests/golden/shapes.py.
#include "report/pages/program_page.h"

#include "report/words/json.h"

namespace report {

namespace {

Json words_json(const std::vector<TypedWord>& words) {
    Json list = Json::array();
    for (const TypedWord& word : words)
        list.push_back({{"names", word.names},
                        {"value", word.value.empty() ? Json(nullptr) : Json(word.value)},
                        {"choices", word.choices},
                        {"required", word.is_required},
                        {"repeats", word.may_repeat},
                        {"text", word.text},
                        {"group", word.group}});
    return list;
}

}  // namespace

std::string version_as_json(const std::string& release) {
    Json json;
    json["version"] = 1;
    json["program"] = "gamut";
    json["release"] = release;
    return finish(json);
}

std::string as_json(const HelpPage& page) {
    Json json;
    json["version"] = 1;
    json["command"] = page.command;
    json["text"] = page.text;
    json["words"] = words_json(page.words);
    json["options"] = words_json(page.options);
    json["commands"] = Json::array();
    for (const auto& [word, line] : page.commands) json["commands"].push_back({{"word", word}, {"text", line}});
    json["notes"] = page.notes;
    json["examples"] = page.examples;
    return finish(json);
}

std::string as_json(const std::vector<GuideTopic>& topics) {
    Json json;
    json["version"] = 1;
    json["topics"] = Json::array();
    for (const GuideTopic& one : topics) json["topics"].push_back({{"topic", one.topic}, {"question", one.question}});
    return finish(json);
}

std::string as_json(const GuideTopic& page) {
    Json json;
    json["version"] = 1;
    json["topic"] = page.topic;
    json["question"] = page.question;
    json["markdown"] = page.markdown;
    return finish(json);
}

}  // namespace report
