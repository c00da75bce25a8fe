#pragma once
// Catch2 2.13 (Debian 12) and 3.x behind one include; tests use only what both have.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
#endif
