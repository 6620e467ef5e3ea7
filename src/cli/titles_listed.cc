#include "cli/titles_listed.h"

#include <algorithm>
#include <iostream>
#include <iterator>

#include "base/failure.h"
#include "base/file_bytes.h"
#include "base/source_file.h"
#include "cli/terminal.h"

namespace cli {

namespace {

std::string bytes_of(const std::string& file) {
    if (file != "-") return base::read_bytes(file);
    std::string bytes{std::istreambuf_iterator<char>(std::cin), std::istreambuf_iterator<char>()};
    if (std::cin.bad()) throw base::Failure("read", "standard input", "reading stopped");
    return bytes;
}

void tell_decoded(const std::string& file, const std::vector<tune::ListedTitle>& list) {
    const auto is_older = [](const tune::ListedTitle& listed) { return !listed.is_utf8; };
    const auto first = std::find_if(list.begin(), list.end(), is_older);
    if (first == list.end()) return;
    const auto lines = std::count_if(first, list.end(), is_older);
    write_notice("gamut: " + file + ":" + std::to_string(first->line) + ": " +
                 (lines == 1 ? "this line is" : std::to_string(lines) + " lines, this the first, are") +
                 " not UTF-8; read as Windows-1252\n");
}

}  // namespace

std::string listed_in(const std::string& file) { return file == "-" ? "standard input" : file; }

std::vector<tune::ListedTitle> titles_listed(const std::string& file) {
    const std::string bytes = bytes_of(file);
    if (base::looks_binary(bytes)) throw base::Failure("read", listed_in(file), "it is no text file");
    const std::vector<tune::ListedTitle> list = tune::read_title_list(bytes);
    tell_decoded(listed_in(file), list);
    return list;
}

}  // namespace cli
