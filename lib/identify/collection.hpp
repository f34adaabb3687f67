#pragma once
/// @file
/// The answers for many files: what each was named, and how that agrees with names that are known.

#include <sectio/base/error.hpp>
#include <sectio/identify/identify.hpp>

#include <map>

namespace sectio {

/// What remains of an answer in a collection.
struct NamedFile {
    struct Name {
        std::vector<const LibraryScale*> scales; ///< the best known first, then its namesakes
        std::size_t start_degree = 1;
        double probability = 0;
    };
    std::string file;
    Verdict verdict = Verdict::none;
    std::vector<Name> names; ///< most probable first
    double none_probability = 1;
    std::optional<std::string> failure; ///< why there is no answer
    std::optional<std::string> label;   ///< what the file is known to be
    /// Which of the names is that of the label, from 1; 0 where none is.
    std::size_t rank = 0;
};

NamedFile named_file(const std::string& file, const Identification& answer);

/// Names that are known, from a table of two columns, file and name, with or without a header.
class Labels {
  public:
    /// @throws Error label_row, and those of a table
    Labels(std::string_view table, const std::string& table_name);

    /// Of the file as it is written, else of its name without folders, else without ending too.
    std::optional<std::string> of(const std::string& file) const;

    /// A word on the labels that none of `files` has, and on those that no scale of `library` is
    /// called; nothing where all are as they should.
    std::vector<std::string> remarks(const std::vector<std::string>& files,
                                     const ScaleLibrary& library) const;

  private:
    std::map<std::string, std::string> names_;
};

/// True where `label` is an id or a name of the entry, letters and digits compared alone, folded().
bool is_named(const Entry& entry, const std::string& label);

/// Sets the label of a file and the rank that its answer gives it.
void judge(NamedFile& named, const std::string& label);

} // namespace sectio
