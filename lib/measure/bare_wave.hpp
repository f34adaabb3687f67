#pragma once
/// @file
/// Private to lib/measure: a WAVE file with nothing but its sound, for libsndfile, which knows no
/// BW64, reads no chunk `smpl` of odd size and loses its way behind odd chunks of RF64.

#include <sectio/measure/sndfile.hpp>

#include <cstdint>
#include <fstream>
#include <memory>
#include <string>

namespace sectio::measure {

class BareWave {
  public:
    /// The sound of the file at `path`, or nothing where that is no WAVE file whose chunks are
    /// whole. `name` stands in errors.
    /// @throws Error wave_damaged where there are several chunks `fmt ` or `data`
    static std::unique_ptr<BareWave> of(const std::string& path, const std::string& name);
    /// As sf_open(); what it gives must be closed before this goes.
    SNDFILE* open(SF_INFO& info);

  private:
    sf_count_t length() const;
    sf_count_t seek(sf_count_t offset, int from);
    sf_count_t read(char* to, sf_count_t count);

    std::ifstream file_;
    std::string head_;
    std::uint64_t begin_ = 0, size_ = 0; ///< of the sound in the file
    sf_count_t at_ = 0;                  ///< of head_ and sound
};

} // namespace sectio::measure
