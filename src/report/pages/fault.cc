// Tested by fault_test.cc.
#include "report/pages/fault.h"

#include "report/words/json.h"

namespace report {

std::string as_json(const Fault& fault) {
    Json json;
    json["version"] = 1;
    Json& error = json["error"];
    error["kind"] = fault.kind;
    error["option"] = fault.option.empty() ? Json(nullptr) : Json(fault.option);
    error["message"] = fault.message;
    error["exit"] = fault.exit_code;
    error["near"] = fault.near;
    error["tunes"] = Json::array();
    for (const tune::TuneRecord& record : fault.tunes)
        error["tunes"].push_back({{"id", record.id.value}, {"title", tune::title_of(record)}});
    return finish(json);
}

}  // namespace report
