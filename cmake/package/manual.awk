# One help text of the program into a manual page (man(7)): awk -v name=callfit-answer -v about="..."
# -v version=0.2.0 -v also="callfit callfit-check" -f manual.awk. Blocks are parted by blank lines: the
# usage, paragraphs, lists under a heading, and paragraphs that begin with a heading.
function escaped(text) {
  gsub(/\\/, "\\e", text)
  gsub(/-/, "\\-", text)
  sub(/^[.']/, "\\\\\\&&", text)
  return text
}

function section(title) { print ".SH \"" toupper(title) "\"" }

# Where descriptions begin: behind the first wide gap of the list.
function column_of(lines, count, i) {
  for (i = 2; i <= count; ++i)
    if (match(lines[i], /^  [^ ]+( [^ ]+)*  +/)) return RLENGTH + 1
  return 0
}

function list(lines, count, i, column, item) {
  section(lines[1])
  column = column_of(lines, count)
  for (i = 2; i <= count; ++i) {
    if (lines[i] !~ /^  [^ ]/) {  # a description goes on
      sub(/^ +/, "", lines[i])
      print escaped(lines[i])
      continue
    }
    item = lines[i]
    text = ""
    if (substr(item, column - 1, 1) == " ") {
      text = substr(item, column)
      item = substr(item, 1, column - 1)
    }
    gsub(/^ +| +$/, "", item)
    sub(/ \[ /, ", ", item)
    sub(/ \]/, "", item)
    print ".TP\n.B \"" escaped(item) "\""
    if (text != "") print escaped(text)
  }
}

function example(lines, count, i) {
  section("Example")
  print ".nf"
  for (i = 2; i <= count; ++i) {
    sub(/^ +/, "", lines[i])
    print escaped(lines[i])
  }
  print ".fi"
}

BEGIN {
  RS = ""
  FS = "\n"
  print ".TH \"" toupper(escaped(name)) "\" 1 \"\" \"callfit " version "\" \"User Commands\""
  section("Name")
  print escaped(name) " \\- " escaped(about)
}

{ count = split($0, lines, "\n") }
NR == 1 {
  section("Synopsis")
  print ".B \"" escaped($0) "\""
  section("Description")
  next
}
lines[1] == "Example" { example(lines, count); next }
count > 1 && lines[2] ~ /^  / { sub(/:$/, "", lines[1]); list(lines, count); next }
/^[A-Z][a-z]+( [a-z]+)?: / {
  section(substr($0, 1, index($0, ":") - 1))
  print escaped(substr($0, index($0, ":") + 2))
  next
}
{ print ".PP\n" escaped($0) }

END {
  section("See also")
  gsub(/ /, "(1), ", also)
  print escaped(also) "(1)"
}
