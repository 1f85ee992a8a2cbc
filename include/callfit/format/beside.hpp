// Documents that name other documents.
#pragma once

#include <functional>
#include <string>

namespace callfit {

/// A text and what to call it in messages.
struct SourceText {
  std::string text;
  std::string source;
};

/// Finds the document `name` that one called `source` refers to; files are looked for beside it.
/// Throws InputError when there is none.
using Beside = std::function<SourceText(const std::string& name, const std::string& source)>;

/// For documents that stand alone: refuses whatever they name.
SourceText nothing_beside(const std::string& name, const std::string& source);

}  // namespace callfit
