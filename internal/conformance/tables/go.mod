module example.com/meniscus/internal/conformance/tables

go 1.25.0

require example.com/meniscus v0.0.0

require github.com/shopspring/decimal v1.6.0

replace example.com/meniscus => ../../..
