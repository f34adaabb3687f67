#include <sectio/measure/hearing_page.hpp>

#include <algorithm>

namespace sectio::measure {

namespace {

using page::Column;
using page::ColumnKind;

constexpr int fraction_digits = 6;

using Stored = std::optional<SamplerPitch>;

void add_degree(page::Table& table, const std::vector<Sample>& samples, const TunedScale& scale) {
    table.add(samples, Column{.head = "degree", .group = "scale"}.keyed("degree"),
              [&](const Sample& s) -> page::Cell {
                  return s.degree ? page::count(scale.number(s.degree->at.degree)) : page::Cell();
              });
    table.add(samples, Column{.head = "to degree", .group = "scale"}.keyed("to_degree_cents"),
              [](const Sample& s) -> page::Cell {
                  if (!s.degree)
                      return {};
                  return page::cents(s.to_degree).with_sign().borne_by(s.half_width);
              });
}

/// The key on which a copy of the set `scale` sounds its degree: the one that its chunk names, or
/// the one above, since a fraction only goes up.
void add_sounding_key(page::Table& table, const std::vector<Sample>& samples,
                      const TunedScale& scale) {
    table.add(samples,
              Column{.head = "lay on", .group = "scale"}.keyed("scale.lay_on", "scale_lay_on"),
              [&](const Sample& s) -> page::Cell {
                  return s.degree ? page::count(sounding_key(s, scale)) : page::Cell();
              });
}

/// What the sampler chunk of one set says: the fraction as the cents that its 32 bits mean.
void add_set(page::Table& table, const std::vector<Sample>& samples, SampleSet set,
             const TunedScale* scale, const Pitch& a4) {
    const std::string name(text(set));
    std::vector<Stored> stored;
    for (const Sample& sample : samples)
        stored.push_back(stored_pitch(sample, set, scale, a4));
    table.add(stored, Column{.head = "key", .group = name}.keyed(name + ".key", name + "_key"),
              [](const Stored& p) { return p ? page::count(p->key) : page::Cell(); });
    table.add(stored,
              Column{.head = "fraction", .group = name}.keyed(name + ".fraction_cents",
                                                              name + "_fraction_cents"),
              [](const Stored& p) -> page::Cell {
                  if (!p)
                      return {};
                  return page::number(Rational(Integer(p->fraction) * 100, Integer(1) << 32))
                      .with_at_most(fraction_digits);
              });
    table.add(stored, Column{.shown = false}.keyed(name + ".fraction", name + "_fraction"),
              [](const Stored& p) { return p ? page::count(p->fraction) : page::Cell(); });
}

page::Paragraphs refusals(const std::vector<RefusedSample>& refused) {
    page::Paragraphs block{.key = "refused"};
    for (const RefusedSample& sample : refused)
        block.paragraphs.push_back({page::Role::caution, sample.error.what()});
    return block;
}

} // namespace

page::Page samples_page(const std::vector<Sample>& samples,
                        const std::vector<RefusedSample>& refused,
                        const std::vector<SampleSet>& sets, const TunedScale* scale,
                        const Pitch& a4) {
    page::Page page{.title = "Samples", .kind = "samples", .digits = 2};
    page::Table table{.key = "samples"};
    table.add(samples, Column{.head = "file", .kind = ColumnKind::key}.keyed("file"),
              [](const Sample& s) { return page::File{s.file}; });
    table.add(samples, Column{.head = "Hz"}.keyed("hz"),
              [](const Sample& s) { return page::hertz(s.pitch, s.half_width); });
    table.add(samples, Column{.head = "key"}.keyed("key"),
              [](const Sample& s) { return page::count(s.key); });
    table.add(samples, Column{.head = "fraction", .strong = true}.keyed("fraction_cents"),
              [](const Sample& s) { return page::cents(s.above_key).borne_by(s.half_width); });
    table.add(samples, Column{.head = "±"}.keyed("uncertainty_cents"),
              [](const Sample& s) { return page::margin(s.half_width); });
    table.add(
        samples, Column{.head = "note", .kind = ColumnKind::note}.keyed("note"),
        [&](const Sample& s) { return page::Note{usual_note(nearest_key(s.pitch, a4).key)}; });
    if (scale)
        add_degree(table, samples, *scale);
    for (const SampleSet set : sets)
        add_set(table, samples, set, scale, a4);
    if (scale && std::find(sets.begin(), sets.end(), SampleSet::scale) != sets.end())
        add_sounding_key(table, samples, *scale);
    page.blocks.push_back(std::move(table));
    page.blocks.push_back(refusals(refused));
    page::Paragraphs remarks{.key = "remarks"};
    for (const Sample& sample : samples)
        for (const std::string& remark : sample.remarks)
            remarks.paragraphs.push_back({page::Role::remark, sample.file + ": " + remark});
    page.blocks.push_back(std::move(remarks));
    return page;
}

} // namespace sectio::measure
