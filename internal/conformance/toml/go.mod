module example.com/meniscus/internal/conformance/toml

go 1.25.0

require (
	example.com/meniscus v0.0.0
	github.com/toml-lang/toml-test/v2 v2.2.0
)

require (
	github.com/BurntSushi/toml v1.6.0 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
)

replace example.com/meniscus => ../../..
