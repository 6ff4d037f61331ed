/** Work in the background, notes for the user, and the history of what can be undone. */
package padward.ui.work;
