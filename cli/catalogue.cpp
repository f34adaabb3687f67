// sectio catalogue [WORDS…]: the reference.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/sheet/catalogue_page.hpp>

namespace sectio::cli {

namespace {

struct CatalogueRequest {
    CommonOptions common;
    std::vector<std::string> words;
    std::string kind;
};

void run(const CatalogueRequest& request, const Command& command) {
    check_out(request.common);
    std::optional<EntryKind> kind;
    if (!request.kind.empty())
        kind = parse_kind(request.kind, {"--kind"});
    const Catalogue& catalogue = Catalogue::installed();
    const Found found = look_up(catalogue, request.words, kind);
    const bool text = !request.common.json && request.common.out.empty();
    answer(catalogue_page(found, catalogue, request.words.empty() && !kind,
                          text ? Readers::people : Readers::programs_too),
           request.common, command);
}

} // namespace

void add_catalogue(Command& app) {
    const auto request = std::make_shared<CatalogueRequest>();
    Command* command = app.add_subcommand(
        "catalogue", "the reference: intervals, commas, scales and tuning systems");
    command->add_option("WORDS", request->words,
                        "an id or a name, or words of the name, tradition, family or source");
    command->add_option("--kind", request->kind, "interval, comma, scale or system");
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
