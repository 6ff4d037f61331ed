/** Actions, and the controls that all views share. */
package padward.ui.control;
