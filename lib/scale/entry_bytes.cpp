#include <sectio/scale/entry_bytes.hpp>

namespace sectio {

namespace {

constexpr std::size_t kinds = std::variant_size_v<Entry::Facts>;
constexpr std::size_t directions = 3;
constexpr std::size_t sign_styles = 4;
constexpr std::size_t most_degree = 1U << 31; ///< no degree number is as great

class EntryWriter {
  public:
    explicit EntryWriter(ByteWriter& bytes) : bytes_(bytes) {}

    void entry(const Entry& entry) {
        text(entry.id), text(entry.name);
        texts(entry.also);
        text(entry.source), text(entry.note);
        bytes_.number(entry.facts.index());
        std::visit([this](const auto& facts) { write(facts); }, entry.facts);
    }

  private:
    void write(const IntervalFacts& facts) { bytes_.interval(facts.interval); }
    void write(const CommaFacts& facts) { bytes_.interval(facts.interval); }
    void write(const Degrees& facts) {
        scale(facts.scale);
        text(facts.tradition), text(facts.tonic_name);
    }
    void write(const ScaleFacts& facts) {
        write(static_cast<const Degrees&>(facts));
        text(facts.family);
        progression(facts.progression);
        bytes_.list(facts.practised, [this](const PractisedDegree& item) { practised(item); });
        text(facts.form_of);
        bytes_.number(facts.common), bytes_.number(facts.most_used);
    }
    void write(const SystemFacts& facts) {
        write(static_cast<const Degrees&>(facts));
        bytes_.number(facts.division ? facts.division->steps().convert_to<std::uint64_t>() : 0);
        if (facts.division)
            bytes_.interval(facts.division->period());
    }

    void text(const std::string& text) { bytes_.text(text); }
    void texts(const std::vector<std::string>& texts) {
        bytes_.list(texts, [this](const std::string& item) { text(item); });
    }
    template <typename Stated>
    void stated(const std::optional<Stated>& value) {
        bytes_.optional(value, [this](const Stated& held) { text(held.text()); });
    }
    void optional(const std::optional<Interval>& value) {
        bytes_.optional(value, [this](const Interval& held) { bytes_.interval(held); });
    }
    void optional(const std::optional<int>& value) {
        bytes_.optional(value, [this](int n) { bytes_.number(static_cast<std::uint64_t>(n)); });
    }
    void degree(const Degree& degree) {
        bytes_.interval(degree.interval);
        text(degree.written), text(degree.name), text(degree.note);
        optional(degree.uncertainty);
    }
    void scale(const Scale& scale) {
        text(scale.id), text(scale.name), text(scale.source);
        stated(scale.tonic), stated(scale.reference), optional(scale.period);
        bytes_.list(scale.degrees, [this](const Degree& item) { degree(item); });
        degree(scale.closing);
        bytes_.optional(scale.signs, [this](SignStyle signs) {
            bytes_.number(static_cast<std::uint64_t>(signs));
        });
        texts(scale.remarks);
    }
    void progression(const MelodicProgression& progression) {
        optional(progression.dominant), optional(progression.second_dominant),
            optional(progression.begins);
        bytes_.optional(progression.direction, [this](Direction direction) {
            bytes_.number(static_cast<std::uint64_t>(direction));
        });
        bytes_.list(progression.mobile, [this](const Interval& item) { bytes_.interval(item); });
        optional(progression.dwells_on);
    }
    void practised(const PractisedDegree& item) {
        bytes_.number(static_cast<std::uint64_t>(item.degree));
        bytes_.interval(item.from), bytes_.interval(item.to);
        text(item.source);
    }

    ByteWriter& bytes_;
};

/// Reads in the order of EntryWriter; braces evaluate from left to right.
class EntryReading {
  public:
    explicit EntryReading(ByteReader& bytes) : bytes_(bytes) {}

    Entry entry() { return {string(), string(), strings(), string(), string(), facts()}; }

  private:
    Entry::Facts facts() {
        switch (static_cast<EntryKind>(bytes_.below(kinds))) {
        case EntryKind::interval:
            return IntervalFacts{bytes_.interval()};
        case EntryKind::comma:
            return CommaFacts{bytes_.interval()};
        case EntryKind::scale:
            return ScaleFacts{degrees(),
                              string(),
                              progression(),
                              bytes_.list([this] { return practised(); }),
                              string(),
                              bytes_.below(2) != 0,
                              bytes_.below(2) != 0};
        case EntryKind::system:
            break;
        }
        return SystemFacts{degrees(), division()};
    }
    Degrees degrees() { return {scale(), string(), string()}; }
    std::optional<EqualDivision> division() {
        const std::uint64_t steps = bytes_.number();
        return steps == 0 ? std::nullopt
                          : std::optional(EqualDivision(Integer(steps), bytes_.interval()));
    }

    std::string string() { return bytes_.string(); }
    std::vector<std::string> strings() {
        return bytes_.list([this] { return string(); });
    }
    template <typename Stated>
    std::optional<Stated> stated() {
        return bytes_.optional([this] { return Stated(string()); });
    }
    std::optional<Interval> optional_interval() {
        return bytes_.optional([this] { return bytes_.interval(); });
    }
    std::optional<int> optional_number() {
        return bytes_.optional([this] { return static_cast<int>(bytes_.below(most_degree)); });
    }
    Degree degree() {
        return {bytes_.interval(), string(), string(), string(), optional_interval()};
    }
    Scale scale() {
        return {
            string(),
            string(),
            string(),
            stated<StatedPitch>(),
            stated<TuningReference>(),
            optional_interval(),
            bytes_.list([this] { return degree(); }),
            degree(),
            bytes_.optional([this] { return static_cast<SignStyle>(bytes_.below(sign_styles)); }),
            strings()};
    }
    MelodicProgression progression() {
        return {
            optional_number(),
            optional_number(),
            optional_number(),
            bytes_.optional([this] { return static_cast<Direction>(bytes_.below(directions)); }),
            bytes_.list([this] { return bytes_.interval(); }),
            optional_number()};
    }
    PractisedDegree practised() {
        return {static_cast<int>(bytes_.below(most_degree)), bytes_.interval(), bytes_.interval(),
                string()};
    }

    ByteReader& bytes_;
};

} // namespace

void write_entry(ByteWriter& bytes, const Entry& entry) {
    EntryWriter(bytes).entry(entry);
}

Entry read_entry(ByteReader& bytes) {
    return EntryReading(bytes).entry();
}

} // namespace sectio
