package words

// Cautions stand on every page: the work can hurt people, and this program decides nothing about safety.
func Cautions() []string {
	return []string{
		"This program is no process authority. Pressure, hold and temperature limits come from a validated process and are never changed on its word.",
		"Product stays refrigerated before and after; spores survive high pressure.",
		"Pressure equipment (ASME BPVC VIII-3, EU 2014/68/EU), guarding and isolation (ISO 12100, EN 415), manual handling (NIOSH lifting equation), hours and breaks: local codes and licensed people decide.",
		"Toll treatment of juice and single-facility rules (21 CFR 120.24): ask the authority.",
		"These figures are no evidence of treatment, and no work standard for a person.",
	}
}
