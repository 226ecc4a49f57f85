#include "app/paragraph.h"

#include "base/text.h"

namespace tub::app {

std::size_t columns_of(std::string_view text) {
  std::size_t columns = 0;
  for (const char byte : text) {
    if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U) ++columns;
  }
  return columns;
}

std::string padded(std::string_view text, std::size_t columns) {
  const std::size_t taken = columns_of(text);
  return std::string(text) + std::string(taken < columns ? columns - taken : 0, ' ');
}

std::string paragraph(std::string_view head, std::string_view text, std::size_t width) {
  const std::size_t inset = columns_of(head);
  std::string lines(head);
  std::size_t column = inset;
  for (const std::string& word : split(text, ' ')) {
    if (word.empty()) continue;
    const std::size_t length = columns_of(word);
    if (column > inset && column + 1 + length > width) {
      lines += "\n" + std::string(inset, ' ');
      column = inset;
    } else if (column > inset) {
      lines += " ";
      ++column;
    }
    lines += word;
    column += length;
  }
  return lines + "\n";
}

std::string tidy(double value, int most_decimals) {
  std::string text = fixed(value, most_decimals);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace tub::app
