// The corpora through their targets, without a fuzzing library:
//   fuzz_replay FOLDER [SECONDS [TARGET]]
// FOLDER has a folder for each target, of its name. Each file is also read cut short at several places and with bytes
// changed, always in the same way. Exit 1 when a target has no file or a file takes more than SECONDS of the processor
// (default 1, times $GAMUT_TIME_FACTOR); a broken promise aborts, and the bytes that broke it go to standard error.
#include <algorithm>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "base/file_bytes.h"
#include "targets.h"

namespace {

// Characters that mean something in ABC, so that a changed byte is more than a wrong letter.
constexpr std::string_view kTelling = "|:[]{}()\"!^_=/<>-&%\\\n\r+,'0123456789ABGZXKMLVTUmwz~. \t";

std::string_view being_read;  // for the last words of an abort

void print_being_read(int) { std::fwrite(being_read.data(), 1, being_read.size(), stderr); }

void run(const fuzz::Target& target, const std::string& bytes) {
    being_read = bytes;
    target.run(bytes);
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

// How many files took too long; one when there is no file.
int replay(const fuzz::Target& target, const std::filesystem::path& folder, double seconds_allowed) {
    std::vector<std::filesystem::path> files;
    if (std::filesystem::is_directory(folder))
        for (const auto& entry : std::filesystem::directory_iterator(folder))
            if (entry.is_regular_file()) files.push_back(entry.path());
    std::sort(files.begin(), files.end());

    int slow = files.empty() ? 1 : 0;
    std::size_t runs = 0;
    for (const auto& file : files) {
        std::fprintf(stderr, "%s/%s\n", folder.filename().c_str(), file.filename().c_str());
        const std::string bytes = base::read_bytes(file);
        std::mt19937 random(static_cast<std::uint32_t>(bytes.size()));
        const std::clock_t began = std::clock();
        run(target, bytes);
        for (int i = 0; i < target.variants; ++i) run(target, varied(bytes, random));
        runs += 1 + static_cast<std::size_t>(target.variants);
        const double taken = static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC;
        if (taken > seconds_allowed) {
            std::printf("%s took %.2f s, allowed %.2f s\n", file.filename().c_str(), taken, seconds_allowed);
            ++slow;
        }
    }
    std::printf("%-10s %3zu files, %5zu runs, %d too slow\n", std::string(target.name).c_str(), files.size(), runs,
                slow);
    return slow;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "usage: fuzz_replay FOLDER [SECONDS [TARGET]]\n");
        return 2;
    }
    std::signal(SIGABRT, print_being_read);
    // A library is written for every run: in memory, where there is such a folder and nobody says otherwise.
    if (std::filesystem::is_directory("/dev/shm")) ::setenv("TMPDIR", "/dev/shm", 0);
    const char* factor = std::getenv("GAMUT_TIME_FACTOR");  // above 1 for slow builds
    const double seconds_allowed = (argc > 2 ? std::atof(argv[2]) : 1.0) * (factor ? std::atof(factor) : 1.0);
    int failed = 0, targets = 0;
    for (const fuzz::Target& target : fuzz::kTargets) {
        if (argc > 3 && target.name != argv[3]) continue;
        ++targets;
        failed += replay(target, std::filesystem::path(argv[1]) / target.name, seconds_allowed);
    }
    return failed > 0 || targets == 0 ? 1 : 0;
}
