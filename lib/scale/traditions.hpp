#pragma once
/// @file
/// Private to lib/scale: the traditions that the catalogue declares, each with its families and the
/// pitches of its tonics, and its signs. An entry names one of them, so that a slip of the pen does
/// not make a tradition of its own.

#include <sectio/base/toml.hpp>
#include <sectio/interval/stated_pitch.hpp>
#include <sectio/scale/sign_style.hpp>

#include <map>
#include <string>
#include <vector>

namespace sectio {

class Traditions {
  public:
    /// Takes one `[[tradition]]` in. @throws Error with its place
    void declare(const TomlValue& table);
    /// The tradition that an entry names, if any; the same for its family.
    /// @throws Error unknown_tradition, unknown_family with the words allowed
    std::string tradition(const TomlReader& entry) const;
    std::string family(const TomlReader& entry) const;
    /// Where a tonic of this name is written in that tradition, "G4", where that is said.
    std::optional<StatedPitch> tonic(const std::string& tradition, const std::string& name) const;
    /// The signs that it writes its scales with, where it has its own.
    std::optional<SignStyle> signs(const std::string& tradition) const;

  private:
    struct Declared {
        std::vector<std::string> families;
        std::map<std::string, StatedPitch> tonics;
        std::optional<SignStyle> signs;
    };
    std::map<std::string, Declared> all_;
};

} // namespace sectio
