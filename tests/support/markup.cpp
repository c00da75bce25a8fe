#include "support/markup.hpp"

#include <algorithm>

namespace compline::tests {

namespace {

constexpr auto none = std::string_view::npos;

class Checker {
  public:
    explicit Checker(std::string_view text) : rest_(text) {}

    std::optional<std::string> check() {
        while (!fault_ && !rest_.empty()) {
            if (rest_.front() == '<') {
                tag();
            } else {
                words(rest_.substr(0, rest_.find('<')));
            }
        }
        if (!fault_ && !open_.empty()) fault_ = "not closed: " + open_.back();
        return fault_;
    }

  private:
    void words(std::string_view text) {
        characters(text);
        if (open_.empty() && text.find_first_not_of(" \n") != none) fault_ = "text outside of all";
        rest_.remove_prefix(text.size());
    }

    void tag() {
        const auto end = rest_.find('>');
        if (end == none) {
            fault_ = "a tag without an end";
            return;
        }
        auto inside = rest_.substr(1, end - 1);
        rest_.remove_prefix(end + 1);
        if (inside.empty()) {
            fault_ = "<>";
        } else if (inside.front() == '!' || inside.front() == '?') {
            return;
        } else if (inside.front() == '/') {
            close(inside.substr(1));
        } else {
            const bool empty = inside.back() == '/';
            if (empty) inside.remove_suffix(1);
            open(inside, empty);
        }
    }

    void close(std::string_view name) {
        if (open_.empty() || open_.back() != name) {
            fault_ = "closed but not open: " + std::string(name);
        } else {
            open_.pop_back();
        }
    }

    void open(std::string_view inside, bool empty) {
        const auto name = inside.substr(0, inside.find_first_of(" \n"));
        attributes(inside.substr(name.size()));
        if (!empty) open_.emplace_back(name);
    }

    void attributes(std::string_view text) {
        std::vector<std::string> names;
        while (!fault_ && (text = trimmed(text)).size() > 0) {
            const auto equals = text.find('=');
            const auto close = equals == none ? none : text.find('"', equals + 2);
            if (close == none || text[equals + 1] != '"') {
                fault_ = "attribute without quotes: " + std::string(text);
                return;
            }
            names.emplace_back(text.substr(0, equals));
            if (std::count(names.begin(), names.end(), names.back()) > 1) {
                fault_ = "attribute twice: " + names.back();
            }
            characters(text.substr(equals + 2, close - equals - 2));
            text.remove_prefix(close + 1);
        }
    }

    void characters(std::string_view text) {
        for (std::size_t i = 0; i < text.size(); ++i) {
            const auto byte = static_cast<unsigned char>(text[i]);
            if (byte < 0x20 && byte != '\n') fault_ = "a control character";
            if (text[i] == '&') {
                const auto end = text.find(';', i);
                if (end == none || end - i > 7) fault_ = "a bare &";
            }
        }
    }

    static std::string_view trimmed(std::string_view text) {
        const auto start = text.find_first_not_of(" \n");
        return start == none ? std::string_view() : text.substr(start);
    }

    std::string_view rest_;
    std::vector<std::string> open_;
    std::optional<std::string> fault_;
};

}  // namespace

std::optional<std::string> markup_fault(std::string_view text) { return Checker(text).check(); }

int count_of(std::string_view text, std::string_view part) {
    int count = 0;
    for (auto at = text.find(part); at != none; at = text.find(part, at + part.size())) ++count;
    return count;
}

}  // namespace compline::tests
