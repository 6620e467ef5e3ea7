#include "importer/read_ahead.h"

#include <catch2/catch.hpp>

#include "support/scratch.h"

using importer::FoundFile;
using importer::ReadAhead;
using importer::ReadJob;

namespace {

struct Jobs {
    support::Scratch scratch;
    std::vector<FoundFile> files;
    std::vector<ReadJob> jobs;

    explicit Jobs(int count, std::int64_t size_told = 60) {
        files.reserve(static_cast<std::size_t>(count));
        for (int i = 0; i < count; ++i) {
            const std::string name = std::to_string(i) + ".abc";
            scratch.write(name, "X:1\nT:Tune " + std::to_string(i) + "\nK:D\n" +
                                    std::string(static_cast<std::size_t>(i % 7 * 40), 'D') + "|\n");
            files.push_back({(scratch / name).string(), name, size_told, 1});
            jobs.push_back({&files.back(), nullptr});
        }
    }
};

}  // namespace

TEST_CASE("read ahead: readings come in the order of the jobs, however many read", "[importer][ahead]") {
    const Jobs jobs(300);
    const importer::ImportOptions options;
    for (const unsigned workers : {1U, 2U, 7U}) {
        ReadAhead ahead(jobs.jobs, options, workers);
        for (int i = 0; i < 300; ++i) {
            const auto reading = ahead.next();
            REQUIRE(reading.file.settings.size() == 1);
            REQUIRE(reading.file.settings.front().titles.front() == "Tune " + std::to_string(i));
        }
    }
}

TEST_CASE("read ahead: files larger than the room ahead are read one by one", "[importer][ahead]") {
    const Jobs jobs(20, importer::kBytesAhead * 2);
    const importer::ImportOptions options;
    ReadAhead ahead(jobs.jobs, options, 4);
    for (int i = 0; i < 20; ++i) REQUIRE(ahead.next().file.shown == std::to_string(i) + ".abc");
}

TEST_CASE("read ahead: may be left half way", "[importer][ahead]") {
    const Jobs jobs(100);
    const importer::ImportOptions options;
    ReadAhead ahead(jobs.jobs, options, 3);
    CHECK(ahead.next().file.shown == "0.abc");
}
