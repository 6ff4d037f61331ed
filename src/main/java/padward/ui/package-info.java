/** The window: views that bind, view models that decide and know no control. */
package padward.ui;
