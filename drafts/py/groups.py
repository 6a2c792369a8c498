import re,pathlib,html
root=pathlib.Path('/work/wt/model/rules')
add={}
for line in open(root/'drafts/groups.tsv'):
    if line.startswith('#') or line.startswith('family\t') or not line.strip(): continue
    f,x,g,v,n=line.rstrip('\n').split('\t')[:5]
    add.setdefault((f,x),[]).append(f'<values id="{g}" of="{v}" name="{html.escape(n,quote=True)}"/>')
for line in open(root/'drafts/alike.tsv'):
    c=line.rstrip('\n').split('\t')
    if line.startswith('#') or len(c)<5: continue
    if c[4].startswith('<alike'): add.setdefault((c[0],c[1]),[]).append(c[4])
    elif c[4]=='none' and ' ' in c[3]: print('?',c[:4])
    elif c[0]=='willys-4x4' and 'y1941 y1947' in line:
        for pair in [p for p in line.split('\t') if 'y1941 y1947' in p][0].split('; '):
            add.setdefault((c[0],c[1]),[]).append(f'<alike values="{pair}" rate="0.02"/>')
done=set()
for fam in ('aldermoor-carrier','mgb','morris-minor','volkswagen-type1','willys-4x4'):
    for p in sorted((root/fam).rglob('*.xml')):
        if 'reference' in p.parts: continue
        t=p.read_text(); out=[]; pos=0
        # mask comments
        mask=re.sub(r'<!--.*?-->',lambda m:' '*len(m.group(0)),t,flags=re.S)
        ins=[]
        for m in re.finditer(r'<feature\s[^>]*?\bid="([^"]*)"[^>]*>(.*?)</feature>',mask,re.S):
            key=(fam,m.group(1))
            if key not in add or key in done: continue
            vals=list(re.finditer(r'<value\s[^>]*/>|<value\s[^>]*[^/]>.*?</value>',m.group(2),re.S))
            if not vals: print('no values',key); continue
            at=m.start(2)+vals[-1].end()
            indent=re.search(r'[ ]*$',t[:m.start(2)+vals[-1].start()].split('\n')[-1]).group(0)
            if indent=='' : indent='    '
            ins.append((at,''.join('\n'+indent+a for a in add[key]))); done.add(key)
        for at,s in sorted(ins,reverse=True): t=t[:at]+s+t[at:]
        if ins: p.write_text(t)
print('not placed',set(add)-done)
for fam in ('aldermoor-carrier','mgb','morris-minor','volkswagen-type1','willys-4x4'):
    s=(root/'drafts'/f'conversions-{fam}.xml')
    (root/fam/'conversions.xml').write_text(s.read_text())
