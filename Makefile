# Every command installs what it lacks, below build/ and node_modules/ where it can.
# Needed beforehand: Rust by rustup, Node.js 20.19 or later with npm, git; Python 3 for `reference`.

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.NOTPARALLEL:
.DELETE_ON_ERROR:

PORT ?= 8080
HOST ?= 127.0.0.1
PREFIX ?= /
# A browser of the system, for tests and pictures.
CHROME ?= $(shell command -v chromium || command -v chromium-browser || command -v google-chrome || echo /usr/bin/chromium)
export CHROME

TARGET_DIR := $(or $(CARGO_TARGET_DIR),target)
WASM := wasm32-unknown-unknown
# Short paths in messages, the same everywhere.
export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS := \
  --remap-path-prefix=$(or $(CARGO_HOME),$(HOME)/.cargo)/registry/src/= \
  --remap-path-prefix=$(CURDIR)/=
PROGRAMS := page worker
PAGE := $(PROGRAMS:%=--bin %) --features ui --target $(WASM)
# The tool and the library must be of one version, so the version is in the tool's path.
BINDGEN_VERSION := $(shell awk '/^name = "wasm-bindgen"$$/ { getline; gsub(/"/, ""); print $$3 }' Cargo.lock)
BINDGEN := build/tools/wasm-bindgen-$(BINDGEN_VERSION)/bin/wasm-bindgen
# bind FOLDER,PROFILE: the programs with what the page imports of them, in build/wasm/FOLDER.
define bind
@rm -rf build/wasm/$(1)
for program in $(PROGRAMS:%=$(TARGET_DIR)/$(WASM)/$(2)/%.wasm); do \
  $(BINDGEN) --target web --no-typescript --out-dir build/wasm/$(1) $$program; \
done
endef
# Simple control flow first; in the end what is alike stands together, for the compressor.
SMALL := --flatten --rereloop -Oz -Oz --reorder-functions-by-name
VITE := node_modules/.bin/vite build --logLevel warn

.PHONY: help serve dist quick test fmt clippy cargo-test clippy-page doc size figures e2e bench bench-quick \
  reference sources pictures clean chromium page-tools wasm-target

help: ## list the commands
	@awk -F ':.*## ' '/^[a-z0-9-]+:.*## / { printf "make %-12s %s\n", $$1, $$2 }' Makefile

serve: page-tools ## build the page quickly and serve it on http://localhost:8080 (PORT, HOST, PREFIX)
	cargo build --profile serve $(PAGE)
	$(call bind,serve,serve)
	$(VITE) --mode serve
	node tools/serve.mjs --folder build/serve --port $(PORT) --host $(HOST) --prefix $(PREFIX)

dist: page-tools ## build the page for release into dist/
	cargo build --locked --profile page $(PAGE)
	$(call bind,dist,page)
	for program in $(PROGRAMS:%=build/wasm/dist/%_bg.wasm); do \
	  node_modules/.bin/wasm-opt $(SMALL) $$program -o $$program; \
	done
	$(VITE) --mode dist
	node tools/compress.mjs dist

# The slow ones among the tests of the firing day are for `test`.
quick: ## format, lints and tests of the core, within a minute
	cargo fmt --check
	cargo clippy --all-targets -- -D warnings
	cargo test --lib --tests -- --skip a_usual_day --skip any_possible_day --skip the_day_has_converged

test: fmt clippy cargo-test clippy-page doc size bench-quick e2e ## everything that CI runs, cheap first

fmt:
	cargo fmt --check

clippy:
	cargo clippy --locked --all-targets -- -D warnings

cargo-test:
	cargo test --locked

# In the profile of the release, so that build scripts and macros are compiled once for this and `dist`.
clippy-page: wasm-target
	cargo clippy --locked --profile page $(PAGE) -- -D warnings

doc:
	RUSTDOCFLAGS="-D warnings" cargo doc --locked --no-deps

size: dist ## sizes of the release against their limits
	node tools/size.mjs dist

# What e2e/same.test.mjs runs as wasm, built and shrunk as the page is.
figures: page-tools
	cargo build --locked --profile page --bin figures --features ui --target $(WASM)
	$(BINDGEN) --target experimental-nodejs-module --no-typescript --out-dir build/wasm/figures $(TARGET_DIR)/$(WASM)/page/figures.wasm
	node_modules/.bin/wasm-opt $(SMALL) build/wasm/figures/figures_bg.wasm -o build/wasm/figures/figures_bg.wasm

# Files by name: Node.js 20 and later ones read a folder argument differently.
e2e: dist figures chromium ## tests in a browser
	node --test --test-concurrency=1 --test-reporter=spec e2e/*.test.mjs

bench: dist chromium ## timings of the core, natively and in the browser
	cargo bench --locked --bench height_of_fire
	cargo bench --locked --bench day
	node tools/bench.mjs

# The benches run here so that they do not rot; nothing is judged by a time.
bench-quick: dist chromium
	cargo bench --locked --bench height_of_fire -- --quick
	cargo bench --locked --bench day -- --quick
	node tools/bench.mjs --quick

reference: build/venv/requirements.txt ## rebuild the tables that the tests compare with
	build/venv/bin/python tests/reference/make_tables.py
	build/venv/bin/python tests/reference/wall_behind.py

sources: ## write the README's table of sources
	cargo run --quiet --bin longsmoke -- sources --markdown > target/sources.md
	sed -i -e '/^<!-- sources -->$$/,/^<!-- end of sources -->$$/{//!d}' -e '/^<!-- sources -->$$/r target/sources.md' README.md

pictures: dist chromium ## the README's pictures, docs/*.png
	node tools/pictures.mjs

clean: ## remove everything that the commands made
	rm -rf build dist node_modules
	cargo clean

page-tools: wasm-target $(BINDGEN) node_modules/.package-lock.json

wasm-target:
	@test -d "$$(rustc --print sysroot)/lib/rustlib/$(WASM)" || rustup target add $(WASM)

# Without --locked, as its own lock file names a version that is no longer to be had; with
# --debug, which compiles in a quarter of the time and is fast enough.
$(BINDGEN):
	cargo install wasm-bindgen-cli --version $(BINDGEN_VERSION) --debug --bin wasm-bindgen --root build/tools/wasm-bindgen-$(BINDGEN_VERSION)

# npm writes this file last, as a record of what it installed.
node_modules/.package-lock.json: package.json package-lock.json
	npm ci
	@touch $@

# The copy of the list is the record of what was installed.
build/venv/requirements.txt: tests/reference/requirements.txt
	python3 -m venv build/venv
	build/venv/bin/pip install --quiet --requirement $<
	cp $< $@

chromium:
	@test -x "$$CHROME" || tools/install-chromium
