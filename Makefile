# make run    builds the page and serves it at the address it prints
# make test   every check there is; what CI runs
# make site   the static site in site/
# The rest: vet, unit, wasm-test, browser-test, readers-test, fuzz, hunt, bench, pictures, oracle, clean.

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c

GO   ?= go
ADDR ?= 127.0.0.1:8080

# Without v1 the compiler fuses multiply and add, and numbers differ in their last
# digits from those of the page.
export GOAMD64 = v1

WASM := GOOS=js GOARCH=wasm

.PHONY: run site test vet unit wasm-test browser-test readers-test fuzz hunt bench pictures oracle programs clean

run: programs
	$(GO) build -o build/dryfold ./cmd/dryfold
	build/dryfold serve -addr $(ADDR)

site: programs
	$(GO) run ./cmd/dryfold site -o site

# Go's own cache knows what has changed. cmd/dryfold/programs.go says how they are built.
programs:
	$(GO) run ./cmd/dryfold site -build -wasm build

test: vet unit wasm-test browser-test readers-test
	@if [ "$${CI:-}" = true ]; then $(MAKE) --no-print-directory fuzz; fi
	@echo "all passed"

vet:
	@bad=$$(gofmt -l cmd wasm fold render assets testdata); if [ -n "$$bad" ]; then echo "not in gofmt's form:"; echo "$$bad"; exit 1; fi
	$(GO) vet ./...
	$(WASM) $(GO) vet ./wasm/... ./render/...

# The arrows and the top-level names are checked by cmd/dryfold's tests.
unit:
	$(GO) test -timeout 20m ./...

# The kernel once more, as the page runs it: the same numbers in WebAssembly. (A short environment:
# node's bridge takes 8 KiB of it. A memory limit: there the collector shares the one thread with the
# tests, and without a limit now and then falls 4 GiB behind, which is all that WebAssembly has.)
wasm-test:
	@.ci/need node && rc=0 || rc=$$?; \
	if [ $$rc = 3 ]; then exit 0; elif [ $$rc != 0 ]; then exit $$rc; fi; \
	echo "$(WASM) $(GO) test ./fold/... ./wasm/session/... ./render/scene"; \
	$(WASM) $(GO) test -timeout 30m -exec="env -i GOMEMLIMIT=1GiB 'PATH=$$PATH' '$$($(GO) env GOROOT)/lib/wasm/go_js_wasm_exec'" ./fold/... ./wasm/session/... ./render/scene

# A real browser on the built page.
browser-test: programs
	@.ci/need chromium && rc=0 || rc=$$?; \
	if [ $$rc = 3 ]; then exit 0; elif [ $$rc != 0 ]; then exit $$rc; fi; \
	$(GO) run ./cmd/dryfold site -o build/site -br 0; \
	echo "$(GO) test -count=1 -tags browser ./wasm/..."; \
	$(GO) test -count=1 -tags browser ./wasm/...

# What is written for others' programs, read by others' programs: the tests TestReader... with the build
# tag readers; see testdata/readers.
readers-test:
	@for what in poppler rsvg readers; do \
		.ci/need $$what && rc=0 || rc=$$?; \
		if [ $$rc = 3 ]; then exit 0; elif [ $$rc != 0 ]; then exit $$rc; fi; \
	done; \
	echo "$(GO) test -count=1 -tags readers -run ^TestReader ./fold/... ./cmd/... ./testdata/readers"; \
	$(GO) vet -tags readers ./fold/... ./cmd/... ./testdata/readers && \
	$(GO) test -count=1 -tags readers -run '^TestReader' ./fold/... ./cmd/... ./testdata/readers

# The random tests on new seeds; a failure prints the seed to run again with. (make
# test keeps to fixed seeds, so that it says the same of the same code.)
hunt:
	$(GO) test -count=1 ./fold -seed 0 -many 100 -contact.seed 0 -contact.parts 40 -sample.seed 0 -sample.parts 100
	$(GO) test -count=10 ./fold/metal ./fold/sizes ./fold/solid ./fold/paper ./wasm/session ./wasm/session/ask -seed 0
	$(GO) test -count=1 ./fold/cutfile -run OffsetTwin -seed 0 -contours 1000
	$(GO) test -count=1 ./fold/solid -run AgainstTwin -seed 0 -pairs 300000
	$(GO) test -count=10 ./fold/shape -run Measured -measuredseed 0
	$(GO) test -count=10 ./fold/shape -run 'RandomStarters|GrownStarters' -starterseed 0 -grownseed 0
	$(GO) test -count=3 ./fold/shape -run 'MakeRandom|MakeHostile|ReadBackMore' -make.seed 0 -hostile.seed 0
	$(GO) test -count=10 ./fold/shape -run 'Cut|Narrow|Practical|AreaTwice' -cutseed 0
	$(GO) test -count=1 ./fold/model -run 'Random|Spoilt|Flat' -seed 0 -many 500

# Go's fuzzer now and then reports its own end of time as a failure, "context deadline
# exceeded", without a failing input: that alone is no failure.
FUZZTIME ?= 30s
fuzz:
	@mkdir -p build
	@grep -rl '^func Fuzz' --include='*_test.go' fold wasm cmd | while read -r file; do \
		for f in $$(sed -n 's/^func \(Fuzz[A-Za-z0-9_]*\).*/\1/p' "$$file"); do \
			echo "$(GO) test -fuzz $$f -fuzztime $(FUZZTIME) ./$$(dirname "$$file")"; \
			$(GO) test -run '^$$' -fuzz "^$$f\$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 10x "./$$(dirname "$$file")" >build/fuzz.log 2>&1 || \
				{ grep -q 'context deadline exceeded' build/fuzz.log && ! grep -q 'Failing input' build/fuzz.log; } || \
				{ cat build/fuzz.log; exit 1; }; \
			tail -n 2 build/fuzz.log; \
		done || exit 1; \
	done

bench:
	$(GO) test -run '^$$' -bench . -benchmem ./...

# The README's picture.
pictures:
	$(GO) run ./cmd/dryfold draw assets/uncapping-tray.dryfold -o assets/uncapping-tray.png -size 1000x640 -done 5.6

# Compares the kernel's solids, and its distances and their time, with other libraries'; see testdata/oracle.
oracle:
	testdata/oracle/run

clean:
	rm -rf build site
