/**
 * Padward as a library: opens a finished design, finds nets and pads, asks, surveys, brings out
 * groups, tries what-ifs, keeps changes and writes them. All values are immutable, and none needs a
 * display.
 *
 * <p>Only this package is meant to be used from outside, with {@link padward.base.BadInput}, which
 * its methods throw. Its names stay; what may change is said in {@code docs/library.md}.
 *
 * <pre>{@code
 * FinishedDesign design = FinishedDesign.open(Path.of("design.json"));
 * Finding finding = design.ask("pump/level/sample[1]", "J1.2");
 * System.out.println(finding.sentence());
 * }</pre>
 */
package padward.api;
