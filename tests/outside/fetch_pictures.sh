#!/usr/bin/env bash
# Public pictures with camera notes, from the Debian source packages of exiftool, exiv2, libexif, jhead and
# libmetadata-extractor-java and the package golang-github-rwcarlsen-goexif-dev, and pairs of pictures from the package
# opencv-doc, laid into the folder that is named (default: .public_pictures). Needs a Debian machine; changes nothing of
# its package lists.
set -euo pipefail
into=${1:-.public_pictures}
mkdir -p "$into"
into=$(cd "$into" && pwd)
[ -e "$into/.complete-3" ] && exit 0
own=$(mktemp -d)
trap 'rm -rf "$own"' EXIT
mkdir -p "$own/lists/partial" "$own/cache/archives/partial" "$own/parts"
# The machine's own mirrors, asked for sources too.
for list in /etc/apt/sources.list.d/*.sources; do
  if [ -e "$list" ] && grep -q 'debian-archive-keyring' "$list"; then
    sed 's/^Types:.*/Types: deb deb-src/' "$list" >"$own/parts/$(basename "$list")"
  fi
done
if [ -s /etc/apt/sources.list ]; then
  sed -n 's/^deb /deb /p; s/^deb /deb-src /p' /etc/apt/sources.list >"$own/parts/main.list"
fi
options=(-o "Dir::Etc::SourceList=/dev/null" -o "Dir::Etc::SourceParts=$own/parts" -o "Dir::State::lists=$own/lists"
  -o "Dir::Cache=$own/cache" -o "APT::Sandbox::User=$(id -un)")
apt-get "${options[@]}" update -qq
cd "$own"
apt-get "${options[@]}" source -qq --download-only --tar-only libimage-exiftool-perl exiv2 libexif
# Not every release of Debian has these.
for more in jhead libmetadata-extractor-java; do
  apt-get "${options[@]}" source -qq --download-only --tar-only "$more" || true
done
for archive in *.orig.tar.*; do
  tar -x -f "$archive" -C "$into" --wildcards '*/t/images/*' '*/test/data/*' '*/test/testdata/*' \
    'jhead-*/tests/*' '*/Tests/Data/*' 2>/dev/null || true
done
apt-get "${options[@]}" download -qq golang-github-rwcarlsen-goexif-dev
dpkg-deb -x golang-github-rwcarlsen-goexif-dev_*.deb "$into/goexif"
apt-get "${options[@]}" download -qq opencv-doc
data=usr/share/doc/opencv-doc/examples/data
dpkg-deb --fsys-tarfile opencv-doc_*.deb | tar -x -C "$own" "./$data"
mkdir -p "$into/opencv-doc/$data"
(cd "$own/$data" && cp H1to3p.xml graf1.png graf3.png aloe[LR].jpg basketball[12].png "$into/opencv-doc/$data/")
touch "$into/.complete-3"
