#include "load/spelling.h"

#include <algorithm>

namespace aftercrop::load {
namespace {

std::string hyphenated(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'' || c == '(' || c == ')' || c == ',') continue;
    const bool gap = c == ' ' || c == '_' || c == '-' || c == '\t';
    if (gap) {
      if (!out.empty() && out.back() != '-') out += '-';
    } else {
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out;
}

std::string singular(std::string word) {
  const auto cut = [&](std::size_t letters) { word.erase(word.size() - letters); };
  if (word.size() < 4 || !word.ends_with("s")) return word;
  if (word.ends_with("ss") || word.ends_with("us") || word.ends_with("is")) return word;
  if (word.ends_with("ies") && word.size() > 4) {
    cut(3);
    return word + "y";
  }
  const bool long_plural = word.ends_with("oes") || word.ends_with("shes") ||
                           word.ends_with("ches") || word.ends_with("xes") ||
                           word.ends_with("sses");
  cut(long_plural ? 2 : 1);
  return word;
}

std::vector<std::string> words_of(const std::string& name) {
  std::vector<std::string> words;
  std::size_t start = 0;
  while (start <= name.size()) {
    const std::size_t end = std::min(name.find('-', start), name.size());
    if (end > start) words.push_back(name.substr(start, end - start));
    start = end + 1;
  }
  return words;
}

std::string join(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) {
    if (!out.empty()) out += '-';
    out += word;
  }
  return out;
}

std::vector<std::string> singular_words(std::string_view text) {
  std::vector<std::string> words = words_of(hyphenated(text));
  for (std::string& word : words) word = singular(word);
  return words;
}

}  // namespace

std::string canonical_word(std::string_view text) { return join(singular_words(text)); }

std::string canonical_name(std::string_view text) {
  std::vector<std::string> words = singular_words(text);
  std::sort(words.begin(), words.end());
  return join(words);
}

std::vector<std::string> canonical_spellings(std::string_view text) {
  std::vector<std::string> found = {canonical_name(text)};
  for (const std::string_view ending : {"s", "es"}) {
    if (text.size() > ending.size() + 2 && text.ends_with(ending)) {
      found.push_back(canonical_name(text.substr(0, text.size() - ending.size())));
    }
  }
  return found;
}

int edit_distance(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<int> before(width);
  std::vector<int> last(width);
  std::vector<int> now(width);
  for (std::size_t j = 0; j < width; ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < width; ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : 1;
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) now[j] = std::min(now[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, now);
  }
  return last[b.size()];
}

}  // namespace aftercrop::load
