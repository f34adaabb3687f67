#include <sectio/print/typeset_pages.hpp>

#include <utility>

namespace sectio::page {

TypesetText::TypesetText(std::shared_ptr<const Shaped> shaped, double width, double height,
                         double baseline)
    : width_(width), height_(height), baseline_(baseline) {
    pieces_.push_back({std::move(shaped), 0, 0, 1});
}

TypesetText TypesetText::scaled(double factor) const {
    TypesetText text = *this;
    text.width_ *= factor, text.height_ *= factor, text.baseline_ *= factor;
    for (Piece& piece : text.pieces_)
        piece.x *= factor, piece.y *= factor, piece.scale *= factor;
    return text;
}

TypesetText TypesetText::mirrored() const {
    TypesetText text = *this;
    for (Piece& piece : text.pieces_)
        piece.mirror_width = width_ / piece.scale;
    return text;
}

void TypesetText::append(const TypesetText& other, double rise) {
    for (Piece piece : other.pieces_) {
        piece.x += width_, piece.y += baseline_ - other.baseline_ - rise;
        pieces_.push_back(std::move(piece));
    }
    width_ += other.width_;
}

} // namespace sectio::page
