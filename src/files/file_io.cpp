#include "system_files.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <cerrno>
#include <fstream>
#include <system_error>

namespace compline::files {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const fs::path& path, const std::string& found) {
    throw text::BadInput(name_of(path), found, "");
}

/// What `path` holds, as a string or a vector of bytes.
template <typename Container>
Container load(const fs::path& path, std::size_t limit) {
    std::error_code unknown;
    if (fs::is_directory(path, unknown)) refuse(path, "is a folder, not a file");
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    if (!in) refuse(path, reason_of(errno));
    Container out;
    std::vector<char> block(std::size_t{1} << 16U);
    while (in.read(block.data(), static_cast<std::streamsize>(block.size())) || in.gcount() > 0) {
        const auto end = block.begin() + in.gcount();
        if (out.size() + static_cast<std::size_t>(in.gcount()) > limit) {
            refuse(path, fmt::format("is too large: more than {} bytes", limit));
        }
        out.insert(out.end(), block.begin(), end);
    }
    if (in.bad()) refuse(path, reason_of(errno));
    return out;
}

}  // namespace

std::string name_of(const fs::path& path) {
    return text::printable(path.string(), std::string::npos);
}

FileError::FileError(const fs::path& path, const std::string& reason)
    : std::runtime_error(fmt::format("{}: {}", name_of(path), reason)), path_(path) {}

AlreadyThere::AlreadyThere(const fs::path& path)
    : FileError(path, "is there already and is not overwritten") {}

std::vector<std::uint8_t> load_bytes(const fs::path& path, std::size_t limit) {
    return load<std::vector<std::uint8_t>>(path, limit);
}

std::string load_text(const fs::path& path, std::size_t limit) {
    return load<std::string>(path, limit);
}

void save_bytes(const fs::path& path, std::span<const std::uint8_t> bytes, Existing existing,
                Access access) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    const bool is_device = fs::exists(status) && !fs::is_regular_file(status);
    if (is_device && !fs::is_directory(status)) {
        write_in_place(path, bytes);
        return;
    }
    UnfinishedFile file(path, existing, access);
    file.write(bytes);
    file.finish();
}

void save_text(const fs::path& path, std::string_view text, Existing existing, Access access) {
    const auto* bytes = reinterpret_cast<const std::uint8_t*>(text.data());
    save_bytes(path, {bytes, text.size()}, existing, access);
}

}  // namespace compline::files
