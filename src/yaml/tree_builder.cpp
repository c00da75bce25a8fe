#include "tree_builder.hpp"

#include "quotes.hpp"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace compline::yaml {

namespace {

/// The parser's marks count bytes, in `pos` as in `column`.
std::size_t offset_of(const YAML::Mark& mark) {
    return mark.pos < 0 ? 0 : static_cast<std::size_t>(mark.pos);
}

TreeNode collection(TreeNode::Kind kind, const YAML::Mark& mark, YAML::EmitterStyle::value style) {
    TreeNode node;
    node.kind = kind;
    node.offset = offset_of(mark);
    node.flow = style == YAML::EmitterStyle::Flow;
    return node;
}

void drop_last(TreeNode& node) {
    if (!node.items.empty()) node.items.pop_back();
    if (!node.entries.empty()) node.entries.pop_back();
}

}  // namespace

void TreeBuilder::OnDocumentStart(const YAML::Mark& mark) {
    if (++documents_ == 1) return;
    throw StopReading{
        offset_of(mark),
        "a second YAML document begins here: one file holds one chart, so put this in "
        "a file of its own"};
}

void TreeBuilder::OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) {
    TreeNode node;
    node.offset = offset_of(mark);
    if (anchor != YAML::NullAnchor && refuse_marks(node.offset, "", anchor)) {
        node.kind = TreeNode::Kind::refused;
    }
    add(std::move(node));
}

void TreeBuilder::OnAlias(const YAML::Mark& mark, YAML::anchor_t) {
    TreeNode node;
    node.kind = TreeNode::Kind::refused;
    node.offset = offset_of(mark);
    problems_.add(node.offset, "a YAML alias (*): write out what it stands for");
    add(std::move(node));
}

void TreeBuilder::OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                           const std::string& value) {
    TreeNode node;
    node.offset = offset_of(mark);
    const bool refused =
        refuse_marks(node.offset, tag, anchor) || (tag == "!" && refuse_open_quotes(node.offset));
    node.kind = refused ? TreeNode::Kind::refused : TreeNode::Kind::text;
    node.text = value;
    node.plain = tag == "?";
    add(std::move(node));
}

void TreeBuilder::OnSequenceStart(const YAML::Mark& mark, const std::string& tag,
                                  YAML::anchor_t anchor, YAML::EmitterStyle::value style) {
    refuse_marks(offset_of(mark), tag, anchor);
    open(collection(TreeNode::Kind::list, mark, style));
}

void TreeBuilder::OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                             YAML::EmitterStyle::value style) {
    refuse_marks(offset_of(mark), tag, anchor);
    open(collection(TreeNode::Kind::map, mark, style));
}

bool TreeBuilder::refuse_marks(std::size_t offset, const std::string& tag, YAML::anchor_t anchor) {
    // The parser gives "?" to what has no tag and "!" to what is quoted, a block scalar, or tagged
    // with a lone "!"; the text itself tells the last two apart.
    const auto& text = source_.readable();
    const bool lone_tag = tag == "!" && offset < text.size() && text[offset] == '!';
    const bool tagged = lone_tag || (!tag.empty() && tag != "?" && tag != "!");
    if (anchor != YAML::NullAnchor) {
        problems_.add(offset, "a YAML anchor (&): charts have none, delete it");
    } else if (tagged) {
        problems_.add(offset, "a YAML tag (!): charts have none, delete it");
    }
    return tagged || anchor != YAML::NullAnchor;
}

bool TreeBuilder::refuse_open_quotes(std::size_t offset) {
    const std::string_view text = source_.readable();
    if (offset >= text.size() || (text[offset] != '"' && text[offset] != '\'')) return false;
    const std::size_t end = end_of_quotes(text, offset);
    if (text.substr(offset, end - offset).find('\n') == std::string_view::npos) return false;
    const std::string what =
        "the quotes opened here are not closed on this line: close them; several lines of bars go "
        "into a block scalar (|)";
    if (end == std::string_view::npos) throw StopReading{offset, what};
    problems_.add(offset, what);
    return true;
}

void TreeBuilder::count_node(std::size_t offset) {
    if (++nodes_ <= most_nodes) return;
    throw StopReading{offset, fmt::format("more than {} values: no chart needs that many, is this "
                                          "file a chart?",
                                          most_nodes)};
}

void TreeBuilder::open(TreeNode node) {
    count_node(node.offset);
    if (stack_.size() == deepest) {
        throw StopReading{node.offset,
                          fmt::format("lists and maps nested more than {} deep: a chart "
                                      "needs four, see charts/README.md",
                                      deepest)};
    }
    stack_.push_back({std::move(node), std::nullopt});
}

void TreeBuilder::close() {
    TreeNode node = std::move(stack_.back().node);
    stack_.pop_back();
    attach(std::move(node));
}

void TreeBuilder::add(TreeNode node) {
    count_node(node.offset);
    attach(std::move(node));
}

void TreeBuilder::attach(TreeNode node) {
    if (stack_.empty()) {
        root_ = std::move(node);
        return;
    }
    auto& [parent, key] = stack_.back();
    if (parent.kind == TreeNode::Kind::list) {
        parent.items.push_back(std::move(node));
    } else if (!key) {
        key = std::move(node);
    } else {
        parent.entries.push_back({std::move(*key), std::move(node)});
        key.reset();
    }
}

std::optional<TreeNode> TreeBuilder::take_what_is_whole() {
    if (!stack_.empty() && !stack_.back().key) drop_last(stack_.back().node);
    while (!stack_.empty()) {
        if (stack_.back().node.flow) {
            stack_.pop_back();
            if (!stack_.empty()) stack_.back().key.reset();
        } else {
            stack_.back().key.reset();
            Open top = std::move(stack_.back());
            stack_.pop_back();
            if (!stack_.empty() && stack_.back().node.kind == TreeNode::Kind::map &&
                !stack_.back().key) {
                continue;  // the top was a key
            }
            attach(std::move(top.node));
        }
    }
    return std::move(root_);
}

std::optional<std::size_t> TreeBuilder::open_bracket() const {
    if (stack_.empty() || !stack_.back().node.flow) return std::nullopt;
    return stack_.back().node.offset;
}

}  // namespace compline::yaml
