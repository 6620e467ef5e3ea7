#include "instruments/known.h"

#include <functional>
#include <map>
#include <set>

#include "instruments/embedded.h"
#include "instruments/instrument_file.h"

namespace instruments {

namespace {

using ById = std::map<std::string, Instrument, std::less<>>;

// A file may be based on one that comes after it, so each is read when it is first needed. One that is based on itself,
// whatever the way round, finds nothing and is a fault.
class Reading {
public:
    const Instrument* instrument(std::string_view id) {
        if (const auto found = read_.find(id); found != read_.end()) return &found->second;
        for (const EmbeddedFile& file : embedded_files()) {
            if (file.id != id || !begun_.emplace(id).second) continue;
            const std::string name(id);
            Instrument made = read_instrument(file.text, name, name + ".toml",
                                              [this](std::string_view base) { return instrument(base); });
            return &read_.emplace(name, std::move(made)).first->second;
        }
        return nullptr;
    }

    ById all() && {
        for (const EmbeddedFile& file : embedded_files()) instrument(file.id);
        return std::move(read_);
    }

private:
    ById read_;
    std::set<std::string, std::less<>> begun_;
};

const ById& known() {
    static const ById all = Reading().all();
    return all;
}

}  // namespace

std::vector<std::string> ids() {
    std::vector<std::string> names;
    for (const EmbeddedFile& file : embedded_files()) names.emplace_back(file.id);
    return names;
}

const Instrument* find(std::string_view id) {
    const ById& all = known();
    const auto found = all.find(id);
    return found != all.end() ? &found->second : nullptr;
}

std::shared_ptr<const Instrument> lent(const Instrument& known) { return {std::shared_ptr<void>(), &known}; }

}  // namespace instruments
