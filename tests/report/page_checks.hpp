#pragma once

// Parts of pages, and what holds for all of them.

#include "support/catch.hpp"
#include "support/markup.hpp"

#include <string>

namespace compline::tests {

/// What stands between two parts of a text.
inline std::string between(const std::string& text, const std::string& from,
                           const std::string& to) {
    INFO(from);
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.substr(at, text.find(to, at) - at);
}

inline std::string section_of(const std::string& page, const std::string& name) {
    return between(page, "<section class=\"" + name + "\"", "</section>");
}

inline bool has_section(const std::string& page, const std::string& name) {
    return page.find("<section class=\"" + name + "\"") != std::string::npos;
}

/// No script, and nothing that is fetched from anywhere.
inline void check_asks_nobody(const std::string& page) {
    CHECK(page.find("http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; ") !=
          std::string::npos);
    for (const auto* part : {"src=", "href=", "url(", "@import", "<link", "<script", "onload"}) {
        INFO(part);
        CHECK(count_of(page, part) == 0);
    }
    // The name of a language, which nobody fetches.
    CHECK(count_of(page, "http") ==
          count_of(page, "http-equiv") + count_of(page, "xmlns=\"http://www.w3.org/2000/svg\""));
}

}  // namespace compline::tests
