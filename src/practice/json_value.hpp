#pragma once

#include <compline/text/bad_input.hpp>

#include <nlohmann/json.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::practice {

/// A value of a JSON text with its place, so that what is refused is named: "asked.way.2.bars".
/// All throw text::BadInput.
class JsonValue {
  public:
    JsonValue(const nlohmann::json& json, std::string place)
        : json_(&json), place_(std::move(place)) {}

    /// What has to be there.
    [[nodiscard]] JsonValue at(const std::string& key) const;
    /// What may be left out; null is left out too.
    [[nodiscard]] std::optional<JsonValue> find(const std::string& key) const;
    [[nodiscard]] std::vector<JsonValue> items() const;  ///< of a list

    /// A whole number from `least` to `most`: a cast of anything else would be another number.
    [[nodiscard]] std::int64_t whole(std::int64_t least, std::int64_t most) const;
    [[nodiscard]] int count(int least, int most) const;
    [[nodiscard]] double number(double least, double most) const;
    [[nodiscard]] std::string text() const;
    [[nodiscard]] bool flag() const;
    [[nodiscard]] bool is(const char* text) const { return *json_ == text; }

    /// One of a set by its name: what `known` (text -> optional) knows.
    template <typename Known>
    auto named(Known known) const {
        auto found = known(text());
        if (!found) refuse("a name that is known");
        return *found;
    }

    /// Words that have a reader of their own; to what that refuses, the place is added.
    template <typename Read>
    auto read(Read read_words) const {
        return text::read_at(place_, [&] { return read_words(text()); });
    }

    [[noreturn]] void refuse(const std::string& expected) const;

  private:
    [[nodiscard]] std::string place_of(const std::string& key) const;

    const nlohmann::json* json_;
    std::string place_;
};

}  // namespace compline::practice
