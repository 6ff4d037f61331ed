/** Several nets at once. */
package padward.ui.group;
