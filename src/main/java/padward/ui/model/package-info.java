/**
 * The models of the window, without any control: the design, the questions, the kept changes, and
 * the session that is saved for the next time.
 */
package padward.ui.model;
