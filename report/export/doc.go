// Package export writes the tables of results for those who count on with them: a spreadsheet or a folder of CSV files. It takes the very
// tables of the page, so every kind of results has its export and none tells another story. Figures become numbers with
// their units in the headings, as precise as the page prints them; the table of all values has them in full.
//
// No text of a scenario can become a formula: in a spreadsheet it is stored as text, in a CSV file, which programs guess at, a text that begins
// like a formula is kept behind an apostrophe.
package export
