"""Everything held on one patient, as FHIR, CSV or a calendar; and the counts that stay when they are forgotten."""
