// Any bytes: read as tuning messages or refused; what is read is written and comes back as it was,
// and every tuning in it is a scale.

#include <sectio/base/error.hpp>
#include <sectio/scale/scale_file_text.hpp>
#include <sectio/tuning/stored_tuning.hpp>
#include <sectio/tuning/tuning_file.hpp>

#include <cstdint>
#include <cstdlib>
#include <string>

using namespace sectio;
using namespace sectio::tuning;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const TuningFile file =
            read_tuning_file(std::string_view(reinterpret_cast<const char*>(data), size), "fuzz");
        const std::string bytes = exclusive_bytes(file.messages);
        if (exclusive_bytes(read_tuning_file(bytes, "again").messages) != bytes)
            std::abort();
        for (const StoredTuning& tuning : stored_tunings(file.messages))
            static_cast<void>(scale_file_text(scale_of(tuning, "fuzz")));
    } catch (const Error&) { // refused with a reason
    }
    return 0;
}
