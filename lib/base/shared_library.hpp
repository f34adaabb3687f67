#pragma once
/// @file
/// Shared libraries opened when they are first needed. A library that is linked costs every command
/// its loading, with that of all libraries after it; those that few commands call are opened here.

#include <sectio/base/error.hpp>

#include <string>

namespace sectio {

/// An opened library; it stays open until the process ends, since its functions are kept.
class SharedLibrary {
  public:
    /// An address that becomes the pointer to a function it is assigned to.
    class Symbol {
      public:
        explicit Symbol(void* address) : address_(address) {}
        template <typename Function>
        operator Function*() const {
            return reinterpret_cast<Function*>(address_);
        }

      private:
        void* address_;
    };

    /// @param name with the number of the interface that the header in use belongs to,
    /// "libzip.so.4"
    /// @throws Error `if_missing`, which is given the name and the reason
    SharedLibrary(std::string name, Message if_missing);

    /// @throws Error `if_missing`, which is given the name of the library and the reason
    Symbol operator[](const char* symbol) const;

  private:
    std::string name_;
    Message if_missing_;
    void* library_;
};

} // namespace sectio
