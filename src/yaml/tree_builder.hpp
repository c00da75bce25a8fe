#pragma once

#include <compline/yaml/problem_list.hpp>
#include <compline/yaml/source_text.hpp>
#include <compline/yaml/tree.hpp>

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/mark.h>

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace compline::yaml {

/// Ends the reading from inside an event: a limit, or a second document.
struct StopReading {
    std::size_t offset;
    std::string what;
};

/// Makes a tree of YAML events.
class TreeBuilder : public YAML::EventHandler {
  public:
    static constexpr std::size_t deepest = 8;
    static constexpr std::size_t most_nodes = 20000;

    TreeBuilder(const SourceText& source, ProblemList& problems)
        : source_(source), problems_(problems) {}

    /// After the last event: the document, none in an empty file.
    [[nodiscard]] std::optional<TreeNode> take_root() { return std::move(root_); }

    /// True when a document has been read to its end: an error came behind it.
    [[nodiscard]] bool has_whole_document() const { return root_ && stack_.empty(); }

    /// After an error: what was whole before it. The value read last is left out, because what
    /// broke the YAML often became a part of it, and so is a list in brackets that was not closed.
    [[nodiscard]] std::optional<TreeNode> take_what_is_whole();

    /// Where the innermost bracket that is still open stands.
    [[nodiscard]] std::optional<std::size_t> open_bracket() const;

    void OnDocumentStart(const YAML::Mark& mark) override;
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override;
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value style) override;
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value style) override;
    void OnMapEnd() override { close(); }

  private:
    struct Open {
        TreeNode node;
        std::optional<TreeNode> key;
    };

    void open(TreeNode node);
    void close();
    void add(TreeNode node);
    void attach(TreeNode node);
    void count_node(std::size_t offset);
    /// True when the node has an anchor or a tag; reports it.
    bool refuse_marks(std::size_t offset, const std::string& tag, YAML::anchor_t anchor);
    /// True when quotes open at `offset` that do not close on their line; reports it. Quotes that
    /// never close have swallowed the file (the parser lets that pass) and end the reading.
    bool refuse_open_quotes(std::size_t offset);

    const SourceText& source_;
    ProblemList& problems_;
    std::vector<Open> stack_;
    std::optional<TreeNode> root_;
    std::size_t nodes_ = 0;
    int documents_ = 0;
};

}  // namespace compline::yaml
