#include "json_value.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

namespace compline::practice {

std::string JsonValue::place_of(const std::string& key) const {
    return place_.empty() ? key : place_ + "." + key;
}

JsonValue JsonValue::at(const std::string& key) const {
    if (const auto found = find(key)) return *found;
    throw text::BadInput(place_, fmt::format("there is no \"{}\"", key), "");
}

std::optional<JsonValue> JsonValue::find(const std::string& key) const {
    if (!json_->is_object()) refuse("an object");
    const auto found = json_->find(key);
    if (found == json_->end() || found->is_null()) return std::nullopt;
    return JsonValue(*found, place_of(key));
}

std::vector<JsonValue> JsonValue::items() const {
    if (!json_->is_array()) refuse("a list");
    std::vector<JsonValue> items;
    items.reserve(json_->size());
    for (std::size_t i = 0; i < json_->size(); ++i) {
        items.emplace_back((*json_)[i], place_of(std::to_string(i + 1)));
    }
    return items;
}

std::int64_t JsonValue::whole(std::int64_t least, std::int64_t most) const {
    const auto range = fmt::format("a whole number, {} to {}", least, most);
    if (!json_->is_number_integer()) refuse(range);
    if (json_->is_number_unsigned() &&
        json_->get<std::uint64_t>() > static_cast<std::uint64_t>(INT64_MAX)) {
        refuse(range);
    }
    const auto number = json_->get<std::int64_t>();
    if (number < least || number > most) refuse(range);
    return number;
}

int JsonValue::count(int least, int most) const { return static_cast<int>(whole(least, most)); }

double JsonValue::number(double least, double most) const {
    const auto range = fmt::format("a number, {:g} to {:g}", least, most);
    if (!json_->is_number()) refuse(range);
    const auto number = json_->get<double>();
    if (!(number >= least && number <= most)) refuse(range);
    return number;
}

std::string JsonValue::text() const {
    if (!json_->is_string()) refuse("a text");
    return json_->get<std::string>();
}

bool JsonValue::flag() const {
    if (!json_->is_boolean()) refuse("true or false");
    return json_->get<bool>();
}

void JsonValue::refuse(const std::string& expected) const {
    const bool holds_more = json_->is_object() || json_->is_array();
    const auto found = json_->is_object() ? "an object"
                       : holds_more
                           ? "a list"
                           : json_->dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    throw text::BadInput(place_, text::printable(found), "expected " + expected);
}

}  // namespace compline::practice
