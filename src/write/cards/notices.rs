//! The notice to users, on a page, and a page of tags to be cut.

use maud::{Markup, html};

use crate::document::card::{Notices, Tag};

/// Tags on a page.
const TAGS: usize = 4;

pub(super) fn body(notices: &Notices) -> Markup {
    let labelled = |label: &str, filled: Option<&str>| {
        html! { div class="box" { span class="label" { (label) } @if let Some(text) = filled { b { (text) } } } }
    };
    html! {
        section class="page notice" {
            h1 { (notices.title) }
            div class="boxes" {
                @for (at, label) in notices.boxes.iter().enumerate() {
                    (labelled(label, notices.well.as_deref().filter(|_| at == 0)))
                }
            }
            @for says in &notices.says { p { (says) } }
            div class="boxes" { @for label in &notices.contacts { (labelled(label, None)) } }
            footer { (notices.foot) }
        }
        section class="page tags" {
            p class="cut" { (notices.tag.cut) }
            @for _ in 0..TAGS { (tag(&notices.tag, notices.well.as_deref())) }
        }
    }
}

fn tag(tag: &Tag, well: Option<&str>) -> Markup {
    html! {
        div class="tag" {
            div class="hole" {}
            p class="tag-title" { (tag.title) }
            @for says in &tag.says { p { (says) } }
            div class="boxes" {
                @for (at, label) in tag.boxes.iter().enumerate() {
                    div class="box" {
                        span class="label" { (label) }
                        @if let Some(text) = well.filter(|_| at == 0) { b { (text) } }
                    }
                }
            }
            p class="foot" { (tag.foot) }
        }
    }
}
