# Every command installs what it lacks, below build/ and node_modules/ where it can.
# Needed beforehand: Rust by rustup, Node.js 20.19 or later with npm, git; Python 3 for `reference`.

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.NOTPARALLEL:
.DELETE_ON_ERROR:

PORT ?= 8080
HOST ?= 127.0.0.1
PREFIX ?= /
# Browsers of the system, for tests and pictures.
CHROME ?= $(shell command -v chromium || command -v chromium-browser || command -v google-chrome || echo /usr/bin/chromium)
FIREFOX ?= $(shell command -v firefox-esr || command -v firefox || echo /usr/bin/firefox-esr)
export CHROME FIREFOX

TARGET_DIR := $(or $(CARGO_TARGET_DIR),target)
WASM := wasm32-unknown-unknown
# Short paths in messages, the same everywhere.
export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS := \
  --remap-path-prefix=$(or $(CARGO_HOME),$(HOME)/.cargo)/registry/src/= \
  --remap-path-prefix=$(CURDIR)/=
PAGE := --bin page --features ui --target $(WASM)
WORKER := --bin worker --features worker --target $(WASM)
# The tool and the library must be of one version, so the version is in the tool's path.
BINDGEN_VERSION := $(shell awk '/^name = "wasm-bindgen"$$/ { getline; gsub(/"/, ""); print $$3 }' Cargo.lock)
BINDGEN := build/tools/wasm-bindgen-$(BINDGEN_VERSION)/bin/wasm-bindgen
# Takes what is marked as split out of the page, into programs of their own (src/ui/below.rs).
SPLIT_VERSION := 0.2.4
SPLIT := build/tools/wasm-split-$(SPLIT_VERSION)/bin/wasm-split-cli
# For the page alone: it is told from the linker's notes who needs what.
NOTED := -Clink-arg=--emit-relocs
# bind FOLDER,PROFILE,PROFILE: page and worker, each of its profile, with what is imported of them,
# in build/wasm/FOLDER.
define bind
@rm -rf build/wasm/$(1) && mkdir -p build/wasm/$(1)
$(SPLIT) --out-name page $(TARGET_DIR)/$(WASM)/$(2)/page.wasm build/wasm/$(1)
$(BINDGEN) --target web --no-typescript --keep-lld-exports --out-dir build/wasm/$(1) build/wasm/$(1)/page.wasm
$(BINDGEN) --target web --no-typescript --out-dir build/wasm/$(1) $(TARGET_DIR)/$(WASM)/$(3)/worker.wasm
endef
# Simple control flow first; in the end what is alike stands together, for the compressor, which
# packs zeros better than they can be left out. Nothing lies in the lowest memory but the far end of
# the stack, so that offsets may be folded.
SMALL := --gufa --flatten --rereloop -Oz --low-memory-unused -Oz --optimize-added-constants-propagate -Oz \
  --skip-pass=memory-packing --strip-producers --strip-target-features --reorder-functions-by-name
# A part is reached by the table of the page alone, which --gufa does not look through; it does not say
# by itself what the Rust target emits.
PART := --enable-bulk-memory --enable-multivalue --enable-mutable-globals --enable-nontrapping-float-to-int \
  --enable-reference-types --enable-sign-ext --strip-debug $(filter-out --gufa,$(SMALL))
FAST := --low-memory-unused -O3 --reorder-functions-by-name
VITE := node_modules/.bin/vite build --logLevel warn

.PHONY: help serve dist quick speed test fmt clippy cargo-test clippy-page doc size figures native step e2e e2e-firefox e2e-firefox-short fuzz bench budgets bench-quick \
  reference sources icons pictures clean chromium firefox page-tools wasm-target

help: ## list the commands
	@awk -F ':.*## ' '/^[a-z0-9-]+:.*## / { printf "make %-12s %s\n", $$1, $$2 }' Makefile

serve: page-tools ## build the page quickly and serve it on http://localhost:8080 (PORT, HOST, PREFIX)
	cargo rustc --profile serve $(PAGE) -- $(NOTED)
	cargo build --profile serve --bin worker --features ui --target $(WASM)
	$(call bind,serve,serve,serve)
	$(VITE) --mode serve
	node tools/serve.mjs --folder build/serve --port $(PORT) --host $(HOST) --prefix $(PREFIX)

dist: page-tools ## build the release into dist/, for any host and folder
	cargo rustc --locked --profile page $(PAGE) -- $(NOTED)
	cargo build --locked --profile worker $(WORKER)
	$(call bind,dist,page,worker)
	node tools/unexport.mjs build/wasm/dist/page_bg.wasm
	node_modules/.bin/wasm-opt $(SMALL) build/wasm/dist/page_bg.wasm -o build/wasm/dist/page_bg.wasm
	node_modules/.bin/wasm-opt $(PART) build/wasm/dist/split_below.wasm -o build/wasm/dist/split_below.wasm
	node_modules/.bin/wasm-opt $(FAST) build/wasm/dist/worker_bg.wasm -o build/wasm/dist/worker_bg.wasm
	node tools/names.mjs build/wasm/dist/page
	$(VITE) --mode dist
	node tools/precache.mjs dist
	node tools/notice.mjs dist
	node tools/compress.mjs dist
	node tools/sums.mjs dist

# The slow ones among the tests of the firing day are for `test`.
quick: ## format, lints and tests of the core, within a minute
	cargo fmt --check
	cargo clippy --all-targets -- -D warnings
	cargo test --lib --tests -- --skip a_usual_day --skip any_possible_day --skip the_day_has_converged

# A busy machine may let a browser test down once; which one, and on what, is told as UNSTEADY.
test: export RETRIES = 1
test: fmt clippy cargo-test clippy-page doc size bench-quick e2e e2e-firefox-short ## everything that CI runs, cheap first

fmt:
	cargo fmt --check

clippy:
	cargo clippy --locked --all-targets -- -D warnings

cargo-test:
	cargo test --locked

# In the profile of the release, so that build scripts and macros are compiled once for this and `dist`.
clippy-page: wasm-target
	cargo clippy --locked --profile page $(PAGE) --bin worker -- -D warnings

doc:
	RUSTDOCFLAGS="-D warnings" cargo doc --locked --no-deps

size: dist ## sizes of the release against their limits
	node tools/size.mjs dist

# What e2e/same.test.mjs runs as wasm, built and shrunk as the page is.
figures: page-tools
	cargo build --locked --profile page --bin figures --features ui --target $(WASM)
	$(BINDGEN) --target experimental-nodejs-module --no-typescript --out-dir build/wasm/figures $(TARGET_DIR)/$(WASM)/page/figures.wasm
	node_modules/.bin/wasm-opt $(SMALL) build/wasm/figures/figures_bg.wasm -o build/wasm/figures/figures_bg.wasm

# What the page is compared with.
native:
	cargo build --locked --profile serve --bin longsmoke --bin figures

# What tools/bench.mjs times as wasm, built and shrunk as the page is.
step: page-tools
	cargo build --locked --profile page --bin step --features ui --target $(WASM)
	$(BINDGEN) --target experimental-nodejs-module --no-typescript --out-dir build/wasm/step $(TARGET_DIR)/$(WASM)/page/step.wasm
	node_modules/.bin/wasm-opt $(SMALL) build/wasm/step/step_bg.wasm -o build/wasm/step/step_bg.wasm

# Files by name: Node.js 20 and later ones read a folder argument differently.
e2e: dist figures native chromium ## tests in a browser
	node --test --test-concurrency=1 --test-reporter=spec e2e/*.test.mjs

e2e-firefox: IN_FIREFOX = $(filter-out release serve,$(notdir $(patsubst %.test.mjs,%,$(wildcard e2e/*.test.mjs))))
e2e-firefox: e2e-firefox-short ## all these tests in Firefox, but for what it cannot emulate

# What one does with the page: it opens, is edited, dragged, undone, shared, and works offline.
IN_FIREFOX = opens design grips link offline
e2e-firefox-short: dist figures firefox
	BROWSER=firefox node --test --test-concurrency=1 --test-reporter=spec $(IN_FIREFOX:%=e2e/%.test.mjs)

# Needs a nightly compiler; the tests try the same seeds, and cases of the same kinds, on every run.
FUZZ_SECONDS ?= 15
fuzz: ## hunt for links and files that break the decoders (FUZZ_SECONDS for each of four targets)
	@rustup run nightly rustc --version || { echo "rustup toolchain install nightly --profile minimal" >&2; exit 1; }
	@cargo fuzz --version 2>/dev/null || cargo install cargo-fuzz --debug
	for target in link packed values file; do \
	  mkdir -p build/fuzz/$$target; \
	  cargo +nightly fuzz run $$target build/fuzz/$$target fuzz/corpus/$$target -- -max_total_time=$(FUZZ_SECONDS); \
	done

bench: dist step chromium ## timings of the core, natively and in the browser
	cargo bench --locked --bench height_of_fire
	cargo bench --locked --bench day
	cargo bench --locked --bench variants
	cargo bench --locked --bench courses
	node tools/bench.mjs

budgets: dist chromium ## what the page costs a visitor, beside what it may
	node tools/budgets.mjs

# The benches run here so that they do not rot; nothing is judged by a time.
bench-quick: dist step chromium
	cargo bench --locked --bench height_of_fire -- --quick
	cargo bench --locked --bench day -- --quick
	cargo bench --locked --bench variants --bench courses --no-run
	node tools/bench.mjs --quick

reference: build/venv/requirements.txt ## rebuild the tables that the tests compare with, read DXF files
	build/venv/bin/python tests/reference/make_tables.py
	build/venv/bin/python tests/reference/wall_behind.py
	cargo run --quiet --bin longsmoke -- example > build/example.json
	for units in metric us; do \
	  cargo run --quiet --bin longsmoke -- export build/example.json --format dxf --units $$units -o build/dxf-$$units; \
	done
	build/venv/bin/python tests/reference/read_dxf.py build/dxf-metric/drawings.dxf build/dxf-us/drawings.dxf
	cargo run --quiet --bin longsmoke -- courses build/example.json --csv > build/courses.csv
	build/venv/bin/python tests/reference/read_courses.py build/courses.csv build/dxf-metric/courses.dxf build/dxf-us/courses.dxf

speed: build/venv/requirements.txt ## the core's time beside that of the independent Python models
	cargo bench --locked --quiet --bench reference > build/speed.json
	build/venv/bin/python tests/reference/speed.py build/speed.json

sources: ## write the README's table of sources
	cargo run --quiet --bin longsmoke -- sources --markdown > target/sources.md
	sed -i -e '/^<!-- sources -->$$/,/^<!-- end of sources -->$$/{//!d}' -e '/^<!-- sources -->$$/r target/sources.md' README.md

icons: chromium node_modules/.package-lock.json ## draw the icons that need pixels, web/public/*.png
	node tools/icons.mjs

pictures: dist chromium ## the README's pictures, docs/*.png
	node tools/pictures.mjs

clean: ## remove everything that the commands made
	rm -rf build dist node_modules
	cargo clean

page-tools: wasm-target $(BINDGEN) $(SPLIT) node_modules/.package-lock.json

wasm-target:
	@test -d "$$(rustc --print sysroot)/lib/rustlib/$(WASM)" || rustup target add $(WASM)

# Without --locked, as its own lock file names a version that is no longer to be had; with
# --debug, which compiles in a quarter of the time and is fast enough.
$(BINDGEN):
	cargo install wasm-bindgen-cli --version $(BINDGEN_VERSION) --debug --bin wasm-bindgen --root build/tools/wasm-bindgen-$(BINDGEN_VERSION)

$(SPLIT):
	cargo install --locked wasm_split_cli_support --version $(SPLIT_VERSION) --features build-binary --debug --root build/tools/wasm-split-$(SPLIT_VERSION)

# npm writes this file last, as a record of what it installed.
node_modules/.package-lock.json: package.json package-lock.json
	npm ci
	@touch $@

# The copy of the list is the record of what was installed.
build/venv/requirements.txt: tests/reference/requirements.txt
	python3 -m venv build/venv
	build/venv/bin/pip install --quiet --requirement $<
	cp $< $@

firefox: node_modules/.package-lock.json
	@test -x "$$FIREFOX" || tools/install-firefox

chromium:
	@test -x "$$CHROME" || tools/install-chromium
