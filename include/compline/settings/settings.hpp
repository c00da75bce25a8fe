#pragma once

#include <compline/yaml/bad_file.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace compline::settings {

// What a player would else type every evening, in a file of YAML. Here it is kept as texts with
// their places; what a text means, and whether it is a good one, says whoever owns the setting,
// when it is used. So this layer knows neither options nor music, and there is one reader for a
// value, whichever way it came.
//
//     out: USB
//     tolerance: 40
//     guitar: archtop            # the one to take where no port says otherwise
//     guitars:
//       archtop: {port: Six, midi-pickup: cycles=1.2}
//       baritone:
//         tuning: B1 E2 A2 D3 F#3 B3
//
// A guitar's own settings come before the others.

/// A setting as it stands in the file.
struct Setting {
    std::string key;
    std::string value;
    std::string place;  ///< "settings.yaml:3:9", where the value begins
    int line = 1;       ///< that it stands in, from 1
};

/// A guitar and what is its own.
struct OwnGuitar {
    std::string name;
    std::string place;
    std::string port;  ///< part of the name of the MIDI input that it comes by; empty: not said
    std::vector<Setting> settings;
};

struct AllSettings {
    std::vector<Setting> all;  ///< in the order of the file, without the guitars
    std::vector<OwnGuitar> guitars;

    /// None: nothing is said of it.
    [[nodiscard]] const Setting* find(std::string_view key) const;
    [[nodiscard]] const OwnGuitar* guitar(std::string_view name) const;
};

/// The key that says which guitar, and the one that has them all.
inline constexpr const char* guitar_key = "guitar";
inline constexpr const char* guitars_key = "guitars";
inline constexpr const char* port_key = "port";

/// The keys there are; each guitar may have some of them, and a port.
struct KnownKeys {
    std::vector<std::string> all;
    std::vector<std::string> of_guitar;
};

/// Why a name is no guitar's: with those there are, and the one that was likely meant.
[[nodiscard]] std::string no_guitar(const AllSettings& settings, const std::string& name);

/// A settings file that cannot be read.
class SettingsError : public yaml::BadFile {
  public:
    using BadFile::BadFile;
};

/// No settings file comes near it.
inline constexpr std::size_t most_bytes = std::size_t{1} << 16U;

/// Reads a file's text; `file` is the name used in messages. An empty one has no settings. Throws
/// SettingsError with all that is wrong: keys that are none (with the nearest that is), one twice,
/// a value that is no text, two guitars of one name, `guitar` that names none.
[[nodiscard]] AllSettings read_settings(std::string_view yaml, const std::string& file,
                                        const KnownKeys& keys);

/// The text with another value of a key, at the top or of a guitar (`guitar` not empty; it is begun
/// where it is not there). Comments, order and all else stay as they were. An empty value takes
/// the setting out. Throws SettingsError where the text cannot be read, text::BadInput where the
/// value stands in brackets or over several lines: then it is to be changed by hand.
[[nodiscard]] std::string with_setting(std::string_view yaml, const std::string& file,
                                       const KnownKeys& keys, const std::string& guitar,
                                       const Setting& changed);

}  // namespace compline::settings
