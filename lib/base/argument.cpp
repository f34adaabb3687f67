#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/messages.hpp>

namespace sectio {

void refuse_argument(std::string_view what, std::string_view wanted, const std::string& piece) {
    throw error(message::unfit_argument, piece, {}, what, wanted);
}

} // namespace sectio
