/**
 * The window as a whole: the program, its frame, what stands where. Views bind; view models decide
 * and know no control. The packages below hold the parts.
 */
package padward.ui;
