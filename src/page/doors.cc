// The engine as functions of C, for a worker of the page. Every text handed out lives until the next call.
#include <cstddef>
#include <string>

#include "page/engine.h"

namespace {

page::Engine& engine() {
    static page::Engine the_only;
    return the_only;
}

const char* handed_out(std::string text) {
    static std::string held;
    held = std::move(text);
    return held.c_str();
}

}  // namespace

extern "C" {

// `name`, `kept` and `question` end with a zero and are UTF-8; `bytes` are `size` many, of any kind.
const char* page_read(const char* name, const char* bytes, std::size_t size);
const char* page_keep(const char* kept);
const char* page_answer(const char* question);
void page_settle();
void page_clear();  // as if nothing had ever been read or said

const char* page_read(const char* name, const char* bytes, std::size_t size) {
    return handed_out(engine().read(name, std::string(bytes, size)));
}

const char* page_keep(const char* kept) { return handed_out(engine().keep(kept)); }

const char* page_answer(const char* question) { return handed_out(engine().answer(question)); }

void page_settle() { engine().settle(); }

void page_clear() { engine() = page::Engine(); }
}
