#pragma once
/// @file
/// Private to lib/scale: the traditions that the catalogue declares, each with its families. An
/// entry names one of them, so that a slip of the pen does not make a tradition of its own.

#include <sectio/base/toml.hpp>

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

  private:
    std::map<std::string, std::vector<std::string>> families_;
};

} // namespace sectio
