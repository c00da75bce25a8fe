// The thread that forces a take to the disk, beside the one that plays and asks.

#include "../../src/app/syncer.hpp"

#include "support/catch.hpp"

#include <compline/files/file_io.hpp>

#include <atomic>
#include <thread>

using compline::app::Syncer;
using compline::files::FileError;

TEST_CASE("what is asked for while the disk is busy is done once it is not", "[threads]") {
    std::atomic<int> begun{0};
    std::atomic<bool> stuck{true};
    {
        Syncer syncer([&] {
            ++begun;
            while (stuck) std::this_thread::yield();
        });
        syncer.ask();
        while (begun == 0) std::this_thread::yield();
        for (int i = 0; i < 100; ++i) syncer.ask();
        CHECK(begun == 1);
        stuck = false;
        while (begun == 1) std::this_thread::yield();
    }
    CHECK(begun == 2);
}

TEST_CASE("why a disk failed is read while the next try goes on", "[threads]") {
    std::atomic<int> begun{0};
    Syncer syncer([&] {
        ++begun;
        throw FileError("take.mid", "no room");
    });
    CHECK(syncer.complaint().empty());
    while (syncer.complaint().empty()) syncer.ask();
    for (int i = 0; i < 100; ++i) {
        syncer.ask();
        CHECK(syncer.complaint() == "take.mid: no room");
    }
    CHECK(begun > 0);
}

TEST_CASE("a syncer that was asked for nothing goes at once", "[threads]") {
    std::atomic<int> begun{0};
    {
        const Syncer syncer([&] { ++begun; });
    }
    CHECK(begun == 0);
}
