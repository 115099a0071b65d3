# Sourced by the scripts: install those Debian packages that are missing.
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck shell=sh

# What it takes to build ringtrue.
# shellcheck disable=SC2034 # used by whoever sources this
build_packages='gcc libc6-dev make autoconf automake libtool pkgconf gawk
libgsl-dev libutf8proc-dev libcsv-dev libsqlite3-dev libxlsxwriter-dev libminizip-dev libexpat1-dev libjansson-dev
libsmartcols-dev libcairo2-dev libpango1.0-dev libproj-dev fonts-dejavu-core'

# Install those of the named packages that are not there yet.
need_packages() {
	missing=
	for package in "$@"; do
		dpkg-query -W -f='${db:Status-Status}\n' "$package" 2>/dev/null |
			grep -qx installed || missing="$missing $package"
	done
	[ -n "$missing" ] || return 0
	echo "installing:$missing"
	as_root=
	if [ "$(id -u)" -ne 0 ]; then
		as_root=sudo
	fi
	$as_root apt-get update -qq >/dev/null
	# shellcheck disable=SC2086 # one word a package
	DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends \
		$missing >/dev/null
}
