// Every file of a folder through the fuzz target, without a fuzzing library:
//   fuzz_replay FOLDER [SECONDS]
// Each is also read cut short at several places and with bytes changed, always in the same way. Exit 1 when the folder
// holds no file or a file takes longer than SECONDS (default 1, times $GAMUT_TIME_FACTOR); a broken promise aborts, and
// the bytes that broke it go to standard error.
#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "base/source_file.h"
#include "read_anything.h"

namespace {

constexpr int kVariants = 40;  // of each file

// Characters that mean something in ABC, so that a changed byte is more than a wrong letter.
constexpr std::string_view kTelling = "|:[]{}()\"!^_=/<>-&%\\\n\r+,'0123456789ABGZXKMLVTUmwz~. \t";

std::string_view being_read;  // for the last words of an abort

void print_being_read(int) { std::fwrite(being_read.data(), 1, being_read.size(), stderr); }

void read(const std::string& bytes) {
    being_read = bytes;
    fuzz::read_anything(bytes);
}

std::string varied(const std::string& bytes, std::mt19937& random) {
    std::string other = bytes;
    if (other.empty()) return other;
    const auto place = [&] { return static_cast<std::size_t>(random() % other.size()); };
    if (random() % 3 == 0) other.resize(place());
    for (unsigned changes = random() % 8; changes > 0 && !other.empty(); --changes) {
        const char byte = random() % 8 == 0 ? static_cast<char>(random() % 256) : kTelling[random() % kTelling.size()];
        switch (random() % 3) {
            case 0:
                other[place()] = byte;
                break;
            case 1:
                other.insert(place(), 1, byte);
                break;
            default:
                other.erase(place(), 1 + random() % 4);
        }
    }
    return other;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "usage: fuzz_replay FOLDER [SECONDS]\n");
        return 2;
    }
    std::signal(SIGABRT, print_being_read);
    const char* factor = std::getenv("GAMUT_TIME_FACTOR");  // above 1 for slow builds
    const double seconds_allowed = (argc > 2 ? std::atof(argv[2]) : 1.0) * (factor ? std::atof(factor) : 1.0);
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(argv[1]))
        if (entry.is_regular_file()) files.push_back(entry.path());
    std::sort(files.begin(), files.end());

    int slow = 0;
    std::size_t readings = 0;
    for (const auto& file : files) {
        std::fprintf(stderr, "%s\n", file.filename().c_str());
        const std::string bytes = base::read_bytes(file);
        std::mt19937 random(static_cast<std::uint32_t>(bytes.size()));
        const auto began = std::chrono::steady_clock::now();
        read(bytes);
        for (int i = 0; i < kVariants; ++i) read(varied(bytes, random));
        readings += 1 + kVariants;
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - began;
        if (taken.count() > seconds_allowed) {
            std::printf("%s took %.2f s, allowed %.2f s\n", file.filename().c_str(), taken.count(), seconds_allowed);
            ++slow;
        }
    }
    std::printf("%zu files, %zu readings, %d too slow\n", files.size(), readings, slow);
    return slow > 0 || files.empty() ? 1 : 0;
}
